// Runs one case and writes its rows to the parent's channel.
import { cases } from './cases.mjs';

const [index, repeats] = process.argv.slice(2).map(Number);
process.send(await cases[index].run(repeats));
process.disconnect();
