import { estimate } from '../cell.js';
import type { JointRow } from '../schema.js';

const joint = (id: string, aliases: string[], about: string, typical: number, low: number, high: number): JointRow => ({
  id,
  aliases,
  about,
  ohms: estimate(
    typical,
    [low, high],
    'Ω',
    'engineering estimate: about 0.1 Ω for a good joint, 10 Ω to 1 kΩ for a bad one',
  ),
});

/** Joints, jumpers and switches in series with the wire. */
export const joints: JointRow[] = [
  joint('crimped sleeve', ['sleeve', 'crimp', 'splice'], 'Pressed sleeve on clean wire.', 0.02, 0.005, 0.1),
  joint('clamp', ['jumper', 'line clamp', 'good'], 'Screwed line clamp on clean wire.', 0.1, 0.02, 0.5),
  joint('knot', ['tied splice', 'figure-eight knot'], 'Tight knot in steel wire.', 0.2, 0.05, 2),
  joint('poly knot', ['poly joint'], 'Knot or clip in poly twine, tape or rope.', 5, 0.5, 100),
  joint('gate handle', ['spring gate', 'bungee gate'], 'Hook and eye of a gate handle.', 0.5, 0.05, 5),
  joint('switch', ['switch closed', 'closed switch', 'cut-out switch'], 'Knife switch, closed.', 0.05, 0.01, 0.5),
  joint('poor', ['wrapped', 'twisted', 'rusty joint'], 'Wire wrapped on rusty wire.', 10, 1, 100),
  joint('bad', ['corroded joint', 'loose joint'], 'Loose or corroded joint that arcs.', 100, 10, 1000),
];
