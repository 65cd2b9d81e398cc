import { estimate } from '../cell.js';
import type { Estimate } from '../estimate.js';
import { feetOhmsPerOhmM } from '../physics/foot-resistance.js';
import type { AnimalRow } from '../schema.js';

const target = (typical: number, low: number, high: number, source: string): Estimate =>
  estimate(typical, [low, high], 'V', source, { basis: 'extension', memory: true });

const leastShort = 'extension services: 2 kV at the least for short-haired stock';
const leastLong = 'extension services: 4 kV for woolly, long-haired or hard-to-hold stock and predators';
const usualCattle = 'extension services: 3 to 5 kV is the usual aim for cattle, 2 kV the least';

const body = estimate(500, [300, 1000], 'Ω', 'IEC 60335-2-76 load component of 500 Ω; range an estimate', {
  basis: 'standard',
  memory: true,
});

const hide = (typical: number, low: number, high: number): Estimate =>
  estimate(typical, [low, high], 'Ω', 'engineering estimate of hide, wool and a dry nose');
const smooth = hide(0, 0, 500);

/** Hoof radius, and how far apart the feet stand: across and along. */
function feet(hoofRadiusM: number, trackM: number, lengthM: number): Estimate {
  const at = (scale: number) =>
    Number(feetOhmsPerOhmM({ hoofRadiusM: hoofRadiusM * scale, trackM, lengthM }).toPrecision(3));
  const source = `IEEE Std 80 disc of ${hoofRadiusM * 1000} mm (20 % either way) under each of four feet ${trackM} by ${lengthM} m apart`;
  return estimate(at(1), [at(1.2), at(0.8)], '1/m', source, { basis: 'derived', memory: true });
}

const cattleFeet = feet(0.05, 0.4, 1.2);
const sheepFeet = feet(0.025, 0.2, 0.6);

const animal = (
  id: string,
  aliases: string[],
  about: string,
  targetVolts: Estimate,
  hideOhms: Estimate,
  feetOhms: Estimate,
): AnimalRow => ({ id, aliases, about, targetVolts, bodyOhms: body, hideOhms, feetOhmsPerOhmM: feetOhms });

/** Animals to hold in or keep out: volts to aim for, and the body that closes the circuit. */
export const animals: AnimalRow[] = [
  animal(
    'cattle',
    ['cow', 'cows', 'beef cattle'],
    'Beef cattle, smooth-coated.',
    target(3000, 2000, 5000, usualCattle),
    smooth,
    cattleFeet,
  ),
  animal(
    'trained dairy cows',
    ['dairy cows', 'dairy', 'trained cattle'],
    'Dairy cows that know the fence.',
    target(2000, 2000, 3000, leastShort),
    smooth,
    cattleFeet,
  ),
  animal(
    'calves',
    ['calf', 'young stock'],
    'Calves and weaners.',
    target(2500, 2000, 4000, leastShort),
    smooth,
    feet(0.035, 0.25, 0.8),
  ),
  animal(
    'bulls',
    ['bull', 'hard-to-hold cattle'],
    'Bulls and other cattle that test a fence.',
    target(4000, 4000, 6000, leastLong),
    smooth,
    feet(0.06, 0.45, 1.4),
  ),
  animal(
    'long-haired cattle',
    ['winter-coated cattle'],
    'Cattle in a thick winter coat.',
    target(4000, 4000, 6000, leastLong),
    hide(1000, 300, 3000),
    cattleFeet,
  ),
  animal(
    'horses',
    ['horse', 'ponies'],
    'Horses and ponies.',
    target(2000, 2000, 4000, leastShort),
    smooth,
    feet(0.06, 0.4, 1.3),
  ),
  animal(
    'sheep',
    ['hair sheep', 'shorn sheep'],
    'Sheep newly shorn or of a hair breed.',
    target(4000, 3000, 6000, leastLong),
    hide(500, 0, 1500),
    sheepFeet,
  ),
  animal(
    'woolly sheep',
    ['sheep in wool', 'sheep in full wool'],
    'Sheep in wool.',
    target(4000, 4000, 7000, leastLong),
    hide(2500, 1000, 5000),
    sheepFeet,
  ),
  animal('goats', ['goat'], 'Goats.', target(4000, 4000, 6000, leastLong), hide(500, 0, 2000), sheepFeet),
  animal(
    'pigs',
    ['pig', 'hogs', 'swine'],
    'Pigs: a wet nose on a low wire.',
    target(2000, 2000, 4000, leastShort),
    smooth,
    feet(0.03, 0.25, 0.8),
  ),
  animal(
    'deer',
    ['wildlife', 'elk'],
    'Deer and other wildlife to keep out.',
    target(4000, 4000, 7000, leastLong),
    hide(2000, 500, 5000),
    feet(0.03, 0.25, 0.9),
  ),
  animal(
    'predators',
    ['predator', 'coyotes', 'wolves', 'dogs', 'foxes'],
    'Dogs, coyotes, foxes and bears.',
    target(4000, 4000, 7000, leastLong),
    hide(1500, 300, 5000),
    feet(0.025, 0.2, 0.6),
  ),
];
