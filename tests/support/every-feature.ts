import { type PlanInput, parsePlan } from '@postvolt/core';

/** The plan below as a person writes it. */
export const everyFeatureInput: PlanInput = {
  formatVersion: 1,
  title: 'Every feature once',
  units: 'metric',
  animal: 'sheep',
  target: { volts: '3 kV', of: 'across the animal' },
  soil: 'sand',
  energizer: {
    at: 'home',
    output: { open: '9.1 kV', '500 ohm': '6.2 kV', '100 ohm': '2.9 kV' },
    derating: { frost: '80 %' },
    leadOut: { length: '25 m' },
    groundLead: { length: '12 m' },
    groundRods: { count: 4, length: '2 m', spacing: '2.5 m', layout: 'ring' },
  },
  junctions: { home: null, corner: { through: true }, far: { post: 'wood corner' }, hut: null, island: null },
  builds: {
    mixed: {
      post: 'steel t-post',
      postSpacing: '9 m',
      wire: '2.5 mm',
      ties: 'from',
      strands: [
        { name: 'top', height: '1.1 m' },
        { name: 'return', height: '0.8 m', role: 'grounded' },
        { name: 'low', height: '0.5 m', wire: '2.5 mm aluminium', insulatorsPerPost: 2 },
        { name: 'sod', height: '0.2 m', role: 'grounded' },
      ],
    },
    strip: { post: 'step-in', wire: 'poly twine', strands: [{ height: '0.9 m' }] },
  },
  runs: {
    front: { from: 'home', to: 'corner', length: '400 m', build: 'mixed' },
    side: { from: 'corner', to: 'far', length: '310 m', build: 'mixed' },
    back: { from: 'far', to: 'home', length: '520 m', build: 'mixed' },
    paddock: { from: 'hut', to: 'hut', length: '200 m', build: 'strip' },
  },
  jumpers: [{ run: 'side', post: 20, strands: ['top', 'low'] }],
  switches: [{ run: 'back', span: 3, openIn: ['frost'] }],
  gates: [
    { run: 'front', span: 7 },
    { run: 'back', span: 30, carriesGrounded: false, cable: { length: '9 m' } },
  ],
  cables: [
    { from: 'corner', to: 'hut', length: '60 m' },
    { from: 'far', to: 'island', role: 'grounded', length: '30 m' },
  ],
  groundedRods: [{ run: 'side', strand: 'return', every: '100 m' }],
  stretches: [
    { run: 'front', from: '50 m', to: '200 m', growth: 'overgrown', growthHeight: '0.7 m', soil: 'clay' },
    { run: 'back', from: '100 m', fouledFraction: '20 %', postWetness: 'wet' },
    { run: 'side', strands: ['low'], leak: '0.7 uS/m', conditions: ['rain'] },
  ],
  faults: [
    { kind: 'wire on post', run: 'front', post: 12, strand: 'top', conditions: ['rain'] },
    { kind: 'cracked insulator', run: 'front', post: 15, strand: 'low' },
    { kind: 'branch on wire', run: 'side', span: 4, strand: 'top' },
    { kind: 'bad splice', run: 'side', span: 9, strand: 'top' },
    { kind: 'strands touching', run: 'back', post: 40, strand: 'low', otherStrand: 'sod', conditions: ['rain'] },
    { kind: 'broken wire', run: 'side', span: 15, strand: 'low', conditions: ['rain', 'frost'] },
    { kind: 'ticking insulator', run: 'side', post: 3, strand: 'top', firesAt: '1 V', resistance: '70 ohm' },
    { kind: 'ticking insulator', run: 'front', post: 30, strand: 'low', firesAt: '20 kV' },
    { kind: 'animal', run: 'back', post: 20, strand: 'top', conditions: ['rain'] },
  ],
  conditions: {
    rain: { soil: 'wet', surface: 'wet', growth: 'moderate' },
    frost: { soil: 'frozen', surface: 'dry', growth: 'none', groundCover: 'dry snow', temperature: '-15 °C' },
  },
};

/** A plan that uses every feature of the format, so that whatever is made from plans meets all of them at once. */
export const everyFeature = parsePlan(everyFeatureInput);
