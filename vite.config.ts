/** One configuration for the client, the server, the command line, and development with all of them in one process. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import type { FastifyInstance } from 'fastify';
import { defineConfig, type Plugin, type RunnableDevEnvironment } from 'vite';

/** Development only: runs server/app.ts inside Vite's own server; edits to it take effect on the next request. */
function apiInDev(): Plugin {
  return {
    name: 'api-in-dev',
    apply: 'serve',
    configureServer(vite) {
      let current: Promise<FastifyInstance> | undefined;
      const load = async () => {
        const { runner } = vite.environments.ssr as RunnableDevEnvironment;
        const { buildApp } = await runner.import<typeof import('./server/app.ts')>('/../server/app.ts');
        const { checksHere } = await runner.import<typeof import('./server/check/inline-checker.ts')>('/../server/check/inline-checker.ts');
        const app = await buildApp({ checker: checksHere });
        await app.ready();
        return app;
      };
      vite.watcher.on('change', (file) => {
        if (!/\/(server|shared|sim-core)\//.test(file)) return;
        void current?.then((app) => app.close()).catch(() => {});
        current = undefined;
      });
      vite.middlewares.use((req: IncomingMessage, res: ServerResponse, next: (e?: unknown) => void) => {
        if (!req.url?.startsWith('/api/')) return next();
        current ??= load();
        current.then(
          (app) => app.routing(req, res),
          (e) => {
            current = undefined;
            next(e);
          },
        );
      });
    },
  };
}

/** Emits /sw.js with the list of built files and a name for this build. */
function serviceWorker(): Plugin {
  return {
    name: 'service-worker',
    apply: 'build',
    applyToEnvironment: (env) => env.name === 'client',
    generateBundle(_options, bundle) {
      const copied = readdirSync('client/public').sort();
      const files = ['/', ...[...Object.keys(bundle), ...copied].flatMap((f) => (f === 'index.html' ? [] : [`/${f}`]))];
      const built = Object.values(bundle).map((b) => ('code' in b ? b.code : b.source.toString()));
      const id = createHash('sha256')
        .update(JSON.stringify([...built, ...copied.map((f) => readFileSync(`client/public/${f}`, 'base64'))]))
        .digest('hex')
        .slice(0, 12);
      const source = `self.__BUILD__ = ${JSON.stringify({ id, files })};\n${readFileSync('client/sw.js', 'utf8')}`;
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}

/** Lays a .br and a .gz beside every text file that is worth it; the server sends what the browser takes. */
function compressed(): Plugin {
  return {
    name: 'compressed',
    apply: 'build',
    enforce: 'post',
    applyToEnvironment: (env) => env.name === 'client',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        for (const [fileName, b] of Object.entries(bundle)) {
          if (!/\.(js|css|html|svg|json)$/.test(fileName)) continue;
          const bytes = Buffer.from('code' in b ? b.code : b.source);
          if (bytes.length < 1024) continue;
          this.emitFile({ type: 'asset', fileName: `${fileName}.br`, source: brotliCompressSync(bytes) });
          this.emitFile({ type: 'asset', fileName: `${fileName}.gz`, source: gzipSync(bytes) });
        }
      },
    },
  };
}

export default defineConfig(({ isSsrBuild }) => ({
  root: 'client',
  plugins: [apiInDev(), serviceWorker(), compressed()],
  worker: { format: 'es' },
  environments: {
    client: {
      build: {
        outDir: '../dist/client',
        emptyOutDir: true,
        assetsInlineLimit: 0,
        // compressing is what takes the time, and that is meant
        rolldownOptions: { checks: { pluginTimings: false } },
      },
    },
    ssr: {
      build: {
        outDir: '../dist/server',
        // the command line is built alone, beside a server that may be running from here
        emptyOutDir: !isSsrBuild,
        copyPublicDir: false,
        target: 'node20',
        rolldownOptions: { input: { main: 'server/main.ts', cli: 'server/cli.ts', 'check-job': 'server/check-job.ts' } },
      },
    },
  },
}));
