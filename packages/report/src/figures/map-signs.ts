import type { RunProfile } from '../data/run-profiles.js';
import { pointAt } from '../geo/point.js';
import { energizerGlyph, faultGlyph, gateGlyph, switchGlyph, weakestGlyph } from '../look/glyphs.js';
import { el, type Markup } from '../markup/element.js';
import type { FenceMap } from './map-content.js';

/** Fraction of a run at which a post, or the middle of the span after it, stands. */
function placeOf(profile: RunProfile | undefined, post: number, onSpan: boolean): number | null {
  const at = profile?.posts.find((item) => item.post === post);
  const next = onSpan ? profile?.posts.find((item) => item.post === post + 1) : undefined;
  if (profile === undefined || at === undefined) return null;
  return (next ? (at.positionM + next.positionM) / 2 : at.positionM) / profile.lengthM;
}

/** Where gates, switches and faults stand. */
export const signPlaces = ({ plan, drawing, profiles }: FenceMap) =>
  [...plan.gates, ...plan.switches, ...plan.faults].flatMap(({ run, post, ...more }) => {
    const onSpan = !('on' in more) || more.on === 'span';
    const fraction = placeOf(
      profiles.find((profile) => profile.run === run),
      post,
      onSpan,
    );
    return fraction === null ? [] : [pointAt(drawing.runs.get(run)!, fraction)];
  });

/** Gates, switches, faults, the energizer and the weakest post. */
export function signsOf(map: FenceMap): Markup[] {
  const { plan, drawing, profiles, condition } = map;
  const spot = (run: string, post: number, onSpan: boolean) => {
    const fraction = placeOf(
      profiles.find((profile) => profile.run === run),
      post,
      onSpan,
    );
    return fraction === null ? null : pointAt(drawing.runs.get(run)!, fraction);
  };
  const signs = (
    items: readonly { readonly id: string; readonly run: string; readonly post: number }[],
    onSpan: (index: number) => boolean,
    draw: (x: number, y: number, degrees: number, index: number) => Markup,
    name: (index: number) => string,
  ) =>
    items.flatMap(({ run, post }, i) => {
      const at = spot(run, post, onSpan(i));
      return at === null ? [] : [el('g', {}, el('title', {}, name(i)), draw(at.x, at.y, at.degrees, i))];
    });
  const home = drawing.junctions.get(plan.energizer.junction)!;
  const { weakest } = condition.verdict;
  const low = spot(weakest.run, weakest.post, false);
  const faults = plan.faults.filter(({ conditions }) => conditions === null || conditions.includes(condition.id));
  const isOpen = (i: number) => plan.switches[i]!.openIn.includes(condition.id);
  return [
    ...signs(
      plan.gates,
      () => true,
      gateGlyph,
      (i) => `Gate ${plan.gates[i]!.id}`,
    ),
    ...signs(
      plan.switches,
      () => true,
      (x, y, degrees, i) => switchGlyph(x, y, degrees, isOpen(i)),
      (i) => `Switch ${plan.switches[i]!.id}, ${isOpen(i) ? 'open' : 'closed'}`,
    ),
    ...signs(
      faults,
      (i) => faults[i]!.on === 'span',
      (x, y) => faultGlyph(x, y),
      (i) => `Fault ${faults[i]!.id}: ${faults[i]!.kind}`,
    ),
    ...(low === null ? [] : [weakestGlyph(low.x, low.y)]),
    energizerGlyph(home.x, home.y),
  ];
}
