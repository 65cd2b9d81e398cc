import { Simulation } from 'eecircuit-engine';

/**
 * Volts of every node of a SPICE deck's operating point, by node name, as ngspice finds them.
 *
 * A fresh simulator a deck: after a singular matrix it hands back the data of the run before. What it prints is an error
 * here, and nothing of it reaches the console.
 */
export async function simulate(deck: string): Promise<ReadonlyMap<string, number>> {
  const print = console.error;
  console.error = () => {};
  try {
    const simulation = new Simulation();
    await simulation.start();
    simulation.setNetList(deck);
    const result = await simulation.runSim();
    // Notes tell of the ways it tries; a way that ends in a singular matrix or none at all is a warning or an error.
    const errors = simulation.getError().filter((line) => line !== '' && !line.startsWith('Note:'));
    if (errors.length > 0) throw new Error(`the simulator says: ${errors.slice(0, 5).join('; ')}`);
    if (result.dataType !== 'real' || result.numPoints !== 1) throw new Error('the simulator found no operating point');
    const title = deck.slice(0, deck.indexOf('\n')).toLowerCase();
    if (!result.header.toLowerCase().includes(title)) throw new Error('the simulator answers for another deck');
    return new Map(
      result.data.flatMap(({ name, values }) => {
        const node = /^v\((.*)\)$/.exec(name)?.[1];
        return node === undefined ? [] : [[node, values[0]!] as const];
      }),
    );
  } finally {
    console.error = print;
  }
}
