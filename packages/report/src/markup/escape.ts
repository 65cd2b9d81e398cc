/** Replaces what XML 1.0 forbids and drops marks that would turn the text around them back to front. */
const clean = (text: string): string =>
  text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd')
    .replace(/[\u202a-\u202e\u2066-\u2069]/g, '');

/** Text as it stands between tags, in HTML and in XML. */
export const escapeText = (text: string): string =>
  clean(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** Text as it stands in an attribute within double quotes, in HTML and in XML. */
export const escapeAttribute = (text: string): string =>
  escapeText(text)
    .replaceAll('"', '&quot;')
    .replaceAll('\n', '&#10;')
    .replaceAll('\r', '&#13;')
    .replaceAll('\t', '&#9;');
