/** By name: folder whose files are changed, and test files below `tests/` without their ending. */
export const rooms: Record<string, { code: string; tests: string[]; but?: string[] }>;
