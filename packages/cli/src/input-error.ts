/** Something that the user can put right and that no plan issue describes: a missing file, an unknown name. Exit code 2. */
export class InputError extends Error {
  override readonly name = 'InputError';
}
