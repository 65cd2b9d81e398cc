// The solver has no need of the main thread: plans go to a worker and results come back as plain objects.
//   node examples/solve-in-a-worker.mjs
import { isMainThread, parentPort, Worker } from 'node:worker_threads';
import { parsePlan, solvePlan } from '@postvolt/core';
import { scenario } from '@postvolt/scenarios';
import { parse } from 'yaml';

if (isMainThread) {
  const worker = new Worker(new URL(import.meta.url));
  worker.once('message', (result) => {
    console.log(result.sentence);
    worker.terminate();
  });
  worker.postMessage(parsePlan(parse(scenario('demo farm').plan)));
} else {
  parentPort.once('message', (plan) => parentPort.postMessage(solvePlan(plan)));
}
