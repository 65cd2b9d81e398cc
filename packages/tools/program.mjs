// Runs a program of an installed package, setting the workspace up first: `node packages/tools/program.mjs PACKAGE BIN ARGS`.
import { programOf, run, setUp } from './setup.mjs';

const [name, bin, ...args] = process.argv.slice(2);
await setUp();
run(programOf(name, bin), args);
