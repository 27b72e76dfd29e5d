/** Finds a Chromium that starts, wherever this machine may have one, or gets one. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright';

const SYSTEM = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
];

async function starts(executablePath: string | undefined): Promise<boolean> {
  try {
    const b = await chromium.launch({ ...(executablePath ? { executablePath } : {}), timeout: 20_000 });
    await b.close();
    return true;
  } catch {
    return false;
  }
}
const run = (cmd: string, args: string[], seconds: number) =>
  spawnSync(cmd, args, { stdio: ['ignore', 'ignore', 'inherit'], timeout: seconds * 1000 }).status === 0;

export interface Found {
  how: string;
  executablePath: string | undefined;
}

/** Order: CHROMIUM_PATH, Playwright's own, the system's, Playwright's download, apt-get as root, a binary inside an npm package. */
export async function findBrowser(log: (m: string) => void = () => {}): Promise<Found> {
  const skip = new Set((process.env.BROWSER_SKIP ?? '').split(','));
  const env = process.env.CHROMIUM_PATH;
  if (env) {
    if (await starts(env)) return { how: 'CHROMIUM_PATH', executablePath: env };
    throw new Error(`CHROMIUM_PATH=${env} does not start`);
  }
  if (!skip.has('own') && (await starts(undefined))) return { how: "Playwright's own", executablePath: undefined };
  if (!skip.has('system')) for (const p of SYSTEM) if (existsSync(p) && (await starts(p))) return { how: 'system', executablePath: p };
  if (!skip.has('download')) {
    log("no browser found: trying Playwright's download");
    const cli = join(createRequire(import.meta.url).resolve('playwright/package.json'), '..', 'cli.js');
    if (run(process.execPath, [cli, 'install', '--only-shell', 'chromium'], 180) && (await starts(undefined)))
      return { how: "Playwright's download", executablePath: undefined };
  }
  if (!skip.has('apt') && process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    log('no browser found: trying apt-get install chromium');
    run('apt-get', ['update', '-qq'], 120);
    if (run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], 420) && (await starts('/usr/bin/chromium')))
      return { how: 'apt-get', executablePath: '/usr/bin/chromium' };
  }
  if (!skip.has('npm') && process.platform === 'linux' && process.arch === 'x64') {
    log('no browser found: trying the binary inside @sparticuz/chromium');
    const dir = join(tmpdir(), 'app-test-chromium-147.0.0');
    try {
      execFileSync('npm', ['install', '--no-save', '--no-package-lock', '--prefix', dir, '@sparticuz/chromium@147.0.0'], {
        stdio: 'ignore',
        timeout: 300_000,
      });
      const out = execFileSync(
        process.execPath,
        [
          '--input-type=module',
          '-e',
          `import {createRequire} from 'node:module';const c=createRequire(${JSON.stringify(join(dir, 'x.js'))})('@sparticuz/chromium');console.log(await (c.default??c).executablePath())`,
        ],
        { encoding: 'utf8', env: { ...process.env, TMPDIR: dir }, timeout: 60_000 },
      );
      const p = out.trim().split('\n').at(-1)!;
      if (await starts(p)) return { how: 'npm', executablePath: p };
    } catch (e) {
      log(String(e));
    }
  }
  throw new Error('No Chromium could be found or installed. Set CHROMIUM_PATH, or run: npx playwright install --with-deps chromium');
}
