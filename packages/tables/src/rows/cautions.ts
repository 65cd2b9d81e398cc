import type { CautionRow } from '../schema.js';

const source = 'IEC 60335-2-76, Annex BB, in our words and from memory; local codes and a licensed electrician decide';

const caution = (id: string, when: CautionRow['when'], about: string, text: string, from = source): CautionRow => ({
  id,
  aliases: [],
  about,
  text,
  source: from,
  when,
});

/** Cautions to show; `when` names the matter in a plan that calls for one. */
export const cautions: CautionRow[] = [
  caution('switch off first', 'always', 'Before any work.', 'Switch the energizer off before you work on the fence.'),
  caution(
    'people',
    'always',
    'People and the fence.',
    'The fence is for animals: never hold or train a person against it. Keep head and chest away from the wires, and mind children.',
  ),
  caution(
    'one energizer',
    'two energizers',
    'One energizer to a fence.',
    'Feed one fence from one energizer only, never from two. Keep the wires of fences that are fed apart at least 2.5 m (8 ft) from each other.',
  ),
  caution(
    'barbed wire',
    'barbed wire',
    'Barbed and razor wire.',
    'Never energize barbed or razor wire. A hot wire offset from a barbed fence stands at least 150 mm (6 in) clear of it, and the barbed wire is grounded at regular intervals.',
  ),
  caution(
    'rods apart',
    'rods',
    'Rods and other earthing.',
    'Keep the ground rods at least 10 m (33 ft) from any other earthing system: power, telephone, or metal water pipes.',
  ),
  caution(
    'overhead clearance',
    'overhead line',
    'Clearance from power lines.',
    'Clear overhead power lines by at least 3 m up to 1 kV, 4 m up to 33 kV and 8 m above that.',
  ),
  caution(
    'beside overhead line',
    'overhead line',
    'Height beside power lines.',
    'Beside an overhead power line keep fence wires no higher than 3 m above ground within 2 m of the place below its outermost conductor, or within 15 m where the line carries more than 1 kV.',
  ),
  caution(
    'lead-out indoors',
    'buildings',
    'Lead-outs inside buildings.',
    "Inside a building run the lead-out so that it is insulated from the building's own metal, in cable made for fence volts.",
  ),
  caution(
    'warning signs',
    'public way',
    'Signs along public ways.',
    'Along public roads and paths, and where they cross, hang warning signs of at least 100 by 200 mm (4 by 8 in), black on yellow, at regular intervals.',
  ),
  caution(
    'temporary fence',
    'temporary',
    'Fence that is moved.',
    'Switch the energizer off before the fence is moved, and drive its rod as far from other earthing as a permanent one.',
    'common practice, no source',
  ),
];
