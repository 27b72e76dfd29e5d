/** Once for all browser tests: builds the app, starts it on a free port, finds a browser. */
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import type { TestProject } from 'vitest/node';
import { findBrowser } from './browser.ts';

export default async function setup(project: TestProject) {
  const t = performance.now();
  const found = await findBrowser((m) => console.log(m));
  execFileSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--app', '--logLevel', 'warn'], {
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'production' },
  });
  const child = spawn(process.execPath, ['dist/server/main.js'], {
    env: { ...process.env, PORT: '0', HOST: '127.0.0.1', CHECK_SECONDS: '60' },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const url = await new Promise<string>((res, rej) => {
    createInterface(child.stdout).on('line', (l) => {
      const m = /Lampwright is at (\S+)/.exec(l);
      if (m) res(m[1]!);
    });
    child.once('exit', (c) => rej(new Error(`server exited with ${c}`)));
  });
  project.provide('url', url);
  project.provide('executablePath', found.executablePath ?? '');
  console.log(`browser: ${found.how}; app at ${url}; ready in ${Math.round(performance.now() - t)} ms`);
  return async () => {
    child.kill('SIGTERM');
    await once(child, 'exit');
  };
}
declare module 'vitest' {
  interface ProvidedContext {
    url: string;
    executablePath: string;
  }
}
