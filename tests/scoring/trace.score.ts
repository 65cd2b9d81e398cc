import { appendFileSync, writeFileSync } from 'node:fs';
import { test } from 'vitest';
import { Random } from '../../packages/core/src/studies/spread/random.js';
import { CaseMaker } from './cases.js';
import { scoringFarms } from './farms.js';
import { type Step, scoreCase } from './score-case.js';

/**
 * Scores fault tracing and writes a table to the file that SCORE_OUT names:
 * `SCORE_OUT=score.txt npx vitest run --config tests/scoring/vitest.config.ts`. SCORE_CASES is the number of cases a farm;
 * SCORE_MODES and SCORE_FARMS choose among what follows, with commas.
 */
const cases = Number(process.env['SCORE_CASES'] ?? 170);
const out = process.env['SCORE_OUT'] ?? 'trace-score.txt';
const modes = (process.env['SCORE_MODES'] ?? 'amps,volts,clean').split(',');
const wanted = process.env['SCORE_FARMS']?.split(',');
const farms = scoringFarms.filter(({ name }) => wanted === undefined || wanted.includes(name));
const meterPercent = 5;
const mostReadings = 6;

const say = (line: string) => appendFileSync(out, `${line}\n`);

test('fault tracing is scored', { timeout: 24 * 3_600_000 }, async () => {
  writeFileSync(out, '');
  for (const mode of modes) {
    const all: Step[][] = [];
    for (const { name, plan } of farms) {
      const maker = new CaseMaker(plan);
      const own: Step[][] = [];
      const started = performance.now();
      for (let c = 0; c < cases; c++) {
        const seed = `${name} ${c}`;
        const truth = maker.make(
          new Random(`${seed} ${mode === 'clean' ? 'clean' : 'fault'}`),
          mode !== 'clean',
          meterPercent,
        );
        own.push(await scoreCase(maker, truth, { withAmps: mode !== 'volts', mostReadings, meterPercent, seed }));
        if (process.env['SCORE_SHOW']) {
          const last = own.at(-1)!.at(-1)!;
          say(
            `  ${c} ${truth.fault?.candidate.kind} ${truth.fault?.candidate.run}/${truth.fault?.candidate.post} ${truth.fault?.ohms.toFixed(0)} cost ${truth.fault?.cost.toFixed(2)} inside ${last.inside} share ${(100 * last.share).toFixed(1)} chance ${last.faultChance.toFixed(3)}`,
          );
        }
      }
      all.push(...own);
      say(`${mode}, ${name}: ${cases} cases, ${((performance.now() - started) / cases).toFixed(0)} ms each`);
      table(own, mode);
    }
    say(`${mode}, all: ${all.length} cases`);
    table(all, mode);
  }
});

function table(scored: readonly Step[][], mode: string): void {
  const percent = (test: (step: Step) => boolean, n: number) =>
    `${((100 * scored.filter((steps) => test(steps[n]!)).length) / scored.length).toFixed(1)} %`;
  for (let n = 0; n <= mostReadings; n++) {
    const second = n < mostReadings ? '' : `, a second fault ${percent(({ faults }) => faults > 1, n)}`;
    const alarm = `alarm ${percent(({ faultChance }) => faultChance >= 0.95, n)}${second}`;
    if (mode === 'clean') {
      say(`  ${n} readings: ${alarm}`);
      continue;
    }
    const shares = scored.map((steps) => steps[n]!.share).sort((a, b) => a - b);
    const at = (q: number) => `${(100 * shares[Math.floor(q * (shares.length - 1))]!).toFixed(1)} %`;
    say(
      `  ${n} readings: inside ${percent(({ inside }) => inside, n)}, share median ${at(0.5)}, 90th ${at(0.9)}, ` +
        `inside and within 5 % ${percent(({ inside, share }) => inside && share <= 0.05, n)}, ${alarm}`,
    );
  }
}
