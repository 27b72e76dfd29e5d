/** Starts the server: address from HOST and PORT, one line when it listens, a clean stop on a signal. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildApp } from './app.ts';
import { checksInThreads } from './check/check-thread.ts';

function stop(reason: string): never {
  console.error(reason);
  process.exit(1);
}

/** A variable of the environment as a number; one that is set and empty is none. */
const numberOf = (text: string | undefined, usual: number): number =>
  text === undefined ? usual : text.trim() === '' ? Number.NaN : Number(text);

const host = process.env.HOST ?? '127.0.0.1';
if (host.trim() === '') stop('HOST is empty; it should be an address of this machine, such as 127.0.0.1.');
const port = numberOf(process.env.PORT, 3000);
if (!Number.isInteger(port) || port < 0 || port > 65535)
  stop(`PORT is ${JSON.stringify(process.env.PORT)}; it should be a whole number from 0 to 65535.`);

const seconds = numberOf(process.env.CHECK_SECONDS, 5);
if (!(seconds >= 1 && seconds <= 3600))
  stop(`CHECK_SECONDS is ${JSON.stringify(process.env.CHECK_SECONDS)}; it should be a number of seconds from 1 to 3600.`);

const clientDir = fileURLToPath(new URL('../client', import.meta.url));
if (!existsSync(`${clientDir}/index.html`)) stop(`The built page is missing in ${clientDir}. Build it first: npm run build.`);

const app = await buildApp({ checker: checksInThreads(new URL('./check-job.js', import.meta.url), { seconds }), clientDir });
try {
  const url = await app.listen({ port, host });
  console.log(`Lampwright is at ${url}`);
} catch (e) {
  const code = e instanceof Error && 'code' in e ? e.code : undefined;
  if (code === 'EADDRINUSE') stop(`Port ${port} on ${host} is used by another program. Choose another one: PORT=${port + 1} npm start.`);
  if (code === 'EACCES') stop(`Port ${port} cannot be opened by this user. Choose one above 1023: PORT=3000 npm start.`);
  if (code === 'ENOTFOUND' || code === 'EADDRNOTAVAIL')
    stop(`HOST is ${JSON.stringify(host)}, which is not an address of this machine. Use 127.0.0.1, or 0.0.0.0 to be reached from outside.`);
  throw e;
}
// what is being answered is answered; a second signal ends at once
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void app.close());
