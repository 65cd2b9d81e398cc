/** True where the terminal's locale says that it shows no Unicode, as a plain console or `LC_ALL=C` does. */
export function isAsciiOnly(env = process.env): boolean {
  if (env['TERM'] === 'dumb' || env['TERM'] === 'linux') return true;
  // The first of these that is set decides (POSIX, Environment Variables).
  const locale = env['LC_ALL'] || env['LC_CTYPE'] || env['LANG'];
  return locale !== undefined && locale !== '' && /^(C|POSIX)$/.test(locale);
}
