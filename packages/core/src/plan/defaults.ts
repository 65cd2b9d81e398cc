/** Rows that a plan takes where it names none. */
export const defaults = {
  title: 'Untitled fence',
  animal: 'cattle',
  groundCover: 'bare',
  vegetation: 'none',
  jumper: 'clamp',
  switch: 'switch',
  cable: '12.5 ga insulated cable',
  groundedInsulator: 'staple',
  endInsulator: 'porcelain bullnose',
  /** The first of these that fits the post. */
  lineInsulators: ['nail-on claw', 't-post clip', 'fibreglass post clip', 'moulded hook'],
  /** 6 ft of 5/8 in. */
  rodLengthM: 1.8288,
  rodDiameterM: 0.015875,
  rodCount: 3,
  /** Of an under-gate cable: twice down and up by some 2 ft. */
  gateCableSlackM: 1.2192,
  temperatureC: 20,
  condition: 'usual',
  climate: 'temperate',
  currency: 'money',
} as const;
