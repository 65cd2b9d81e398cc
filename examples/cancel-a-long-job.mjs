// Long studies take an AbortSignal and report how far they are.
//   node examples/cancel-a-long-job.mjs
import { parsePlan } from '@postvolt/core';
import { spread } from '@postvolt/core/studies';
import { scenario } from '@postvolt/scenarios';
import { parse } from 'yaml';

const plan = parsePlan(parse(scenario('demo farm').plan));
const abort = new AbortController();
try {
  await spread(plan, {
    draws: 100_000,
    signal: abort.signal,
    onProgress: (done) => {
      if (done > 0.001) abort.abort(new Error('enough'));
    },
  });
  console.log('done');
} catch (reason) {
  console.log(`stopped: ${reason.message}`);
}
