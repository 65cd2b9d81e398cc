import type { Tables } from '@postvolt/tables';
import type { TaskOptions } from '../../engine/pacer.js';
import type { VariationChoice } from './variations.js';

/** What to ask of `reach`. */
export interface ReachOptions extends TaskOptions {
  /** Id of the run to stretch; without it every run is, in proportion. */
  readonly run?: string;
  /** Ids of the conditions; all where left out. */
  readonly conditions?: readonly string[];
  /** Longest length to look at, of what is stretched; default 25 mi or 40 km, at least four times the present length. */
  readonly mostM?: number;
  /** Changes whose reach stands in the table beside; the usual ones where left out, none for false. */
  readonly variations?: VariationChoice | false;
  /** Where the varied wires are looked up; the standard tables where left out. */
  readonly tables?: Tables;
}
