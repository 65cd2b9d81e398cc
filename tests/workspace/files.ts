import { readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/** What git ignores, and git's own folder. */
const ignored = new Set(['.git', 'node_modules', 'dist', 'out', 'coverage', '.DS_Store']);

/** Names at the top of the workspace. */
export const topLevel = (): string[] => readdirSync(root).filter((name) => !ignored.has(name));

/** Every file of the workspace below a folder of it, as paths from the top with slashes. */
export function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    if (ignored.has(entry.name)) return [];
    const path = join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(path) : [relative('.', path).split(sep).join('/')];
  });
}
