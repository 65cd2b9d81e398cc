import { formatLength, formatOhms, formatVolts } from '@postvolt/core';
import type { GroundTest, SupplyResult } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** Energizer and rods for a person: the answer, the trade-off, condition by condition, then the field test. */
export function* showSupply(result: SupplyResult, look: Look): Generator<string> {
  const { colours, width } = look;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  yield `${plain(result.title)}; target ${formatVolts(result.target.volts)} ${result.target.of} (${plain(result.target.label)}).\n\n`;
  yield `${tradeOffTable(result, look)}\n\n`;
  yield `${hang('  ', rodWords(result), width)}\n\n`;
  yield `${conditionTable(result, look)}\n\n`;
  yield `${testTable(result, look)}\n\n`;
  yield `${hang('  ', testWords(result), width)}\n`;
}

const className = (id: string | null): string => (id === null ? 'none' : id.replace(/ j$/, ' J'));
const nameOf = ({ conditions }: SupplyResult, id: string) =>
  conditions.find((condition) => condition.id === id)?.name ?? id;

/** An output, or that no energizer of the tables has it. */
function outputWords(volts: number | null, result: SupplyResult): string {
  if (volts === null) return 'none';
  const most = Math.max(...result.classes.map(({ voltsAt500 }) => voltsAt500.high));
  return volts > most ? `over ${formatVolts(most)}` : formatVolts(volts);
}

function tradeOffTable(result: SupplyResult, { width, colours }: Look): string {
  const rows = result.tradeOff.map((line) => ({
    cells: [
      String(line.rods),
      ohmsWords(line.leastOhms, line.mostOhms),
      outputWords(line.voltsAt500, result),
      className(line.class),
      line.holds ? 'holds' : 'falls short',
      nameOf(result, line.decides),
      formatVolts(line.testVolts),
    ],
    ...(line.rods === result.present.rods ? { style: colours.strong } : {}),
  }));
  const { perfectGround } = result;
  const perfect = [
    ...['∞', '0 Ω', outputWords(perfectGround.voltsAt500, result), className(perfectGround.class)],
    ...['', nameOf(result, perfectGround.decides), '0 V'],
  ];
  return table(
    [
      { head: 'Rods', align: 'right' },
      { head: 'Ground', align: 'right' },
      { head: 'At 500 Ω', align: 'right' },
      { head: 'Class' },
      { head: 'As it is' },
      { head: 'Decides', gives: true },
      { head: 'Test', align: 'right' },
    ],
    [...rows, { cells: perfect }],
    { width, colours },
  );
}

function ohmsWords(least: number, most: number): string {
  const [low, high] = [formatOhms(least), formatOhms(most)];
  return low === high ? low : `${low.replace(/ Ω$/, '')} to ${high}`;
}

function rodWords({ rod, units, present, ruleOfThumbRods }: SupplyResult): string {
  const { lengthM, spacingM, layout } = rod;
  const length = (metres: number) => formatLength(metres, units);
  const ground = present.rods === null ? ' in place of the measured ground' : '';
  const rule =
    ruleOfThumbRods === null
      ? ''
      : ` The rule of 3 ft of rod a joule, three rods at least, asks for ${ruleOfThumbRods}.`;
  return `Rods of ${length(lengthM)} in a ${layout}, ${length(spacingM)} apart${ground}. At 500 Ω: the least output on the plan's own curve. Class: the smallest generic one that holds. As it is: the plan's own energizer. Test: highest reading of the field test below.${rule}`;
}

function conditionTable(result: SupplyResult, { width, colours }: Look): string {
  const rows = result.conditions.map((condition) => ({
    cells: [
      condition.name,
      formatOhms(condition.groundOhms),
      condition.weakestPost,
      formatVolts(condition.weakestVolts),
      condition.cutOff ? 'cut off' : outputWords(condition.leastVoltsAt500, result),
    ],
    ...(condition.id === result.leastOutput.decides ? { style: colours.strong } : {}),
  }));
  return table(
    [
      { head: 'Condition', gives: true },
      { head: 'Ground', align: 'right' },
      { head: 'Weakest post', gives: true },
      { head: 'Volts', align: 'right' },
      { head: 'Needs at 500 Ω', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

function testTable(result: SupplyResult, { width, colours }: Look): string {
  const rows = result.groundTests.map((test) => ({
    cells: [
      nameOf(result, test.condition),
      test.soil,
      test.shortOhms === null ? 'no short' : formatOhms(test.shortOhms),
      formatVolts(test.riseVolts),
      test.readVolts === null ? 'unknown' : formatVolts(test.readVolts),
      test.verdict ?? '',
      rodsToPass(test, result),
    ],
    ...(test.verdict === 'fails' ? { style: colours.alarm } : {}),
  }));
  return table(
    [
      { head: 'Field test', gives: true },
      { head: 'Soil', gives: true },
      { head: 'Short', align: 'right' },
      { head: 'Rise', align: 'right' },
      { head: 'Reads', align: 'right' },
      { head: '' },
      { head: 'Rods to pass', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

const rodsToPass = ({ rodsToPass }: GroundTest, { mostRods }: SupplyResult): string =>
  rodsToPass === null ? `over ${mostRods}` : String(rodsToPass);

function testWords({ groundTests, units, probeM }: SupplyResult): string {
  const [test] = groundTests;
  if (test === undefined) return '';
  const length = (metres: number) => formatLength(metres, units);
  return `The fence is shorted at ${plain(test.shortPost)}, ${length(test.shortAtM)} off, until it reads ${formatVolts(test.fenceVolts)} there; a meter between the last rod and a probe ${formatLength(probeM, units, 2)} beyond it should then read 0.2 to 0.3 kV at the most.`;
}
