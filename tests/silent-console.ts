import { afterEach, beforeEach, expect, vi } from 'vitest';

const methods = ['debug', 'error', 'info', 'log', 'trace', 'warn'] as const;

// A library that prints is a defect: a test fails on any console output that it did not ask for with a spy of its own.
let printed: string[] = [];

beforeEach(() => {
  printed = [];
  for (const method of methods)
    vi.spyOn(console, method).mockImplementation((...parts) => {
      printed.push(`console.${method}: ${parts.map(String).join(' ')}`);
    });
});

afterEach(() => {
  vi.restoreAllMocks();
  expect(printed).toEqual([]);
});
