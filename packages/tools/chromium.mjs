// Finds the browser that the browser tests drive, and installs it where the system's packages can.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'chrome.exe'];

/** Path of Chromium, from POSTVOLT_CHROMIUM or the search path; null where there is none. */
export function findChromium() {
  const chosen = process.env.POSTVOLT_CHROMIUM;
  if (chosen) return existsSync(chosen) ? chosen : null;
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.flatMap((folder) => names.map((name) => join(folder, name))).find(existsSync) ?? null;
}

/** Letters as wide as those that the figures' texts were measured for; without them a browser takes wider ones. */
const fonts = '/usr/share/fonts/truetype/liberation';

/** Installs Chromium and its fonts through apt-get where they are missing; says loudly where that cannot be done. */
export function ensureChromium() {
  if (findChromium() && (process.platform !== 'linux' || existsSync(fonts))) return;
  if (spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status === 0) {
    console.log('Installing Chromium for the browser tests ...');
    const sudo = process.getuid?.() === 0 ? [] : ['sudo', '-n'];
    for (const words of [['update'], ['install', '-y', '--no-install-recommends', 'chromium', 'fonts-liberation']]) {
      const [command, ...rest] = [...sudo, 'apt-get', ...words];
      spawnSync(command, rest, {
        stdio: ['ignore', 'ignore', 'inherit'],
        env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      });
    }
  }
  if (findChromium()) return;
  console.error(`
*** NO CHROMIUM: the browser tests will be SKIPPED. ***
*** Install Chromium, or name it in POSTVOLT_CHROMIUM, and run this again. ***
`);
}
