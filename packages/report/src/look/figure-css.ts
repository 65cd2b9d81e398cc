import { type Role, roles, themes } from './theme.js';

const variables = (theme: Record<Role, string>): string => roles.map((role) => `--pv-${role}:${theme[role]}`).join(';');

/**
 * Style sheet of the figures. `scope` holds the colours: `svg.pv` for a figure that stands alone, `:root` for a page.
 * A page that shows figures drawn with `standalone: false` needs it once.
 */
export function figureCss(scope = ':root'): string {
  return [
    `${scope}{color-scheme:light dark;${variables(themes.light)}}`,
    `@media (prefers-color-scheme:dark){${scope}{${variables(themes.dark)}}}`,
    `@media print{${scope}{color-scheme:light;${variables(themes.light)}}}`,
    ...roles.map((role) => `.pv .f-${role}{fill:var(--pv-${role})}.pv .s-${role}{stroke:var(--pv-${role})}`),
    '.pv .hit{fill:transparent;stroke:transparent;stroke-width:1.5px;outline:none}',
    '.pv .hit:hover,.pv .hit.on,.pv .hit:focus{stroke:var(--pv-ink)}',
  ].join('\n');
}
