import { type Estimate, type PriceGroup, priceGroups, prices, rowKey, works } from '@postvolt/tables';
import type { Issue } from '../issue.js';
import { showFound } from '../quantity/fault.js';
import { entered } from './entered.js';
import type { Reporter } from './reporter.js';
import type { ResolvedPrices } from './resolved.js';
import { lookUpRow } from './row-index.js';
import type { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';
import type { Rate } from './schema-prices.js';
import { suggestion } from './suggest.js';
import { namesOf } from './unknown-row.js';

type Path = Issue['path'];
type Per = 'metre' | 'piece';

/** A plan's own prices, by the rows and kinds that they are for. */
export function resolvePrices(input: Plan['prices'], book: RowLookup, report: Reporter): ResolvedPrices | null {
  if (input === undefined) return null;
  const group = (name: PriceGroup) => {
    const kinds = prices.filter((row) => row.group === name);
    return each(input[name], ['prices', name], 'money', report, (key) => {
      const kind = kinds.find(({ id }) => rowKey(id) === rowKey(key));
      if (kind !== undefined) return kind;
      const row = name === 'parts' ? undefined : lookUpRow(book.tables, name, key);
      if (row !== undefined) return { id: row.id, per: name === 'wires' ? 'metre' : 'piece' };
      return [...kinds.map(({ id }) => id), ...(name === 'parts' ? [] : namesOf(book.tables, name))];
    });
  };
  const [wires, posts, insulators, energizers, parts] = priceGroups.map(group) as [
    ResolvedPrices['wires'],
    ...ResolvedPrices['wires'][],
  ];
  const hours = each(input.hours, ['prices', 'hours'], 'h', report, (key) => {
    const row = works.find(({ id }) => rowKey(id) === rowKey(key));
    return row ?? works.map(({ id }) => id);
  });
  const labour = input.labour;
  return {
    currency: input.currency,
    wires,
    posts: posts!,
    insulators: insulators!,
    energizers: energizers!,
    parts: parts!,
    labourPerHour: labour === undefined ? null : rateOf(labour, 'piece', 'money/h', ['prices', 'labour'], report),
    hours,
  };
}

/** Each rate under the id of what it is for; `find` returns that, or the names that would do. */
function each(
  rates: Readonly<Record<string, Rate>>,
  path: Path,
  unit: string,
  report: Reporter,
  find: (key: string) => { readonly id: string; readonly per: Per } | readonly string[],
): Record<string, Estimate> {
  const found: Record<string, Estimate> = {};
  for (const [key, rate] of Object.entries(rates)) {
    const row = find(key);
    if ('id' in row)
      found[row.id] = rateOf(rate, row.per, row.per === 'metre' ? `${unit}/m` : unit, [...path, key], report);
    else {
      const names = row as readonly string[];
      report.error('unknown-row', [...path, key], showFound(key), `one of its ${names.length} names`, () =>
        suggestion(key, names),
      );
    }
  }
  return found;
}

function rateOf(rate: Rate, per: Per, unit: string, path: Path, report: Reporter): Estimate {
  const { low, typical, high, perM } = rate;
  if ((perM === null) === (per === 'metre')) {
    const [found, expected] =
      per === 'metre'
        ? [`${typical} without a length`, `a rate for a length, such as \`${typical} per 100 m\``]
        : [`${typical} for a length`, 'a rate each, a number alone'];
    report.error('wrong-unit', path, found, expected);
  }
  const by = perM ?? 1;
  return entered({ low: low / by, typical: typical / by, high: high / by }, unit, path);
}
