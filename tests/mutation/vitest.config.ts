import { defineConfig } from 'vitest/config';
import ordinary from '../vitest.config.js';
import { rooms } from './rooms.mjs';

const room = rooms[process.env['POSTVOLT_ROOM'] ?? 'engine']!;
const files = (names: readonly string[] = []) => names.map((name) => `tests/${name}.test.ts`);

// The room's own tests in their short form, without the slow ones that cover nothing that these do not.
export default defineConfig({
  ...ordinary,
  test: {
    ...ordinary.test,
    include: files(room.tests),
    exclude: files(room.but),
  },
});
