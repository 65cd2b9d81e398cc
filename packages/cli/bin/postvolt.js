#!/usr/bin/env node
// A file of its own, so that it is there to be linked before anything is built.
const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  process.stderr.write(`postvolt needs Node 20.19 or later; this is ${process.version}.\n`);
  process.exitCode = 2;
} else await import('../dist/bin.js');
