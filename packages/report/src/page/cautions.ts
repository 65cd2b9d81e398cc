import { type Issue, type PlanResult, wordIssue } from '@postvolt/core';
import { standardTables } from '@postvolt/tables';
import { el, type Markup } from '../markup/element.js';

/** What is doubtful about the plan and its conditions. */
export function warningsSection(result: PlanResult, planWarnings: readonly Issue[]): Markup | null {
  const items = [
    ...[...planWarnings, ...result.warnings].map((issue) => ({ where: 'The plan', issue })),
    ...result.conditions.flatMap(({ name, warnings }) => warnings.map((issue) => ({ where: name, issue }))),
  ];
  if (items.length === 0) return null;
  return el(
    'section',
    {},
    el('h2', { id: 'warnings' }, 'Warnings'),
    el(
      'ul',
      {},
      items.map(({ where, issue }) => el('li', {}, el('b', {}, `${where}: `), wordIssue(issue))),
    ),
  );
}

/** All cautions, those that the plan touches first and marked. */
export function cautionsSection(result: PlanResult): Markup {
  const touched = new Set(result.cautions.map(({ id }) => id));
  const known = new Set(standardTables.cautions.map(({ id }) => id));
  const all = [
    ...result.cautions.map((caution) => ({ ...caution, touches: true })),
    ...standardTables.cautions.filter(({ id }) => !touched.has(id)).map((caution) => ({ ...caution, touches: false })),
  ];
  const sources = [...new Set(all.map(({ source }) => source))];
  return el(
    'section',
    {},
    el('h2', { id: 'cautions' }, 'Cautions'),
    el('p', { class: 'who' }, 'Local codes and a licensed electrician decide. Nothing here replaces them.'),
    el(
      'ul',
      {},
      all.map(({ id, text, touches }) =>
        el(
          'li',
          { class: 'keep' },
          touches ? el('span', { class: 'touch' }, known.has(id) ? 'This plan: ' : 'This plan, too: ') : null,
          text,
        ),
      ),
    ),
    el('p', { class: 'small' }, `Sources: ${sources.join('; ')}.`),
  );
}

/** Where the model stops. */
export const limitsSection = (pulseHz: number): Markup =>
  el(
    'section',
    {},
    el('h2', { id: 'limits' }, 'What the model leaves out'),
    el(
      'ul',
      {},
      [
        `Volts are peak volts of the pulse in a network of resistances; the wire has its resistance to a pulse of about ${Math.round(pulseHz / 100) / 10} kHz.`,
        'Capacitance and inductance of the line are left out. With 0.1 µS/m of leakage or more over six miles the far end agrees within about 12 %; a long clean fence reads too high here, by about a quarter at the far end and by half at the energizer, and its far end may truly read higher than its near end.',
        'Growth, dirt, damp soil and poly wire are estimates with wide ranges. Readings of a fence meter decide.',
        'Peak volts without a pulse width say nothing about the limits of IEC 60335-2-76, which are tested on the energizer itself.',
      ].map((text) => el('li', {}, text)),
    ),
  );
