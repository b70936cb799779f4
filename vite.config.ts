import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { playwright } from '@vitest/browser-playwright';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { chromiumLaunchOptions } from './tests/chromium.ts';

/** What the built page may load. Only the build carries it: the dev server needs inline scripts and a web socket. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self' blob:",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** Puts the policy into the head of the built page, before anything that it governs. */
function contentSecurityPolicy(): Plugin {
  return {
    name: 'axlewright-content-security-policy',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT_SECURITY_POLICY },
        injectTo: 'head-prepend',
      },
    ],
  };
}

const PIXI = fileURLToPath(new URL('./node_modules/pixi.js/lib/', import.meta.url)).replaceAll('\\', '/');

/** What stands for pixi's entries in the build: what src/canvas uses of it, file by file. */
const PIXI_PARTS: Readonly<Record<string, string>> = {
  // `rendering/init` makes pixi take canvases as textures: its texts are some.
  'pixi.js': `
import '${PIXI}rendering/init.mjs';
export { Application } from '${PIXI}app/Application.mjs';
export { Container } from '${PIXI}scene/container/Container.mjs';
export { Graphics } from '${PIXI}scene/graphics/shared/Graphics.mjs';
export { Text } from '${PIXI}scene/text/Text.mjs';
export { Sprite } from '${PIXI}scene/sprite/Sprite.mjs';
export { Texture } from '${PIXI}rendering/renderers/shared/texture/Texture.mjs';
export { CanvasSource } from '${PIXI}rendering/renderers/shared/texture/sources/CanvasSource.mjs';
`,
  // The plain renderer makes no functions out of text, so under the policy only its check has to go.
  'pixi.js/unsafe-eval': `
import { AbstractRenderer } from '${PIXI}rendering/renderers/shared/system/AbstractRenderer.mjs';
AbstractRenderer.prototype._unsafeEvalCheck = () => undefined;
`,
};

/**
 * Pixi's own entry names all of its three renderers, so that a page would load all of them (50 kB compressed) to use
 * one. In the build only the parts above are its entry; the renderer in use is loaded when it is known, WebGL's
 * together with what it needs under the policy.
 */
function pixiInParts(): Plugin {
  return {
    name: 'axlewright-pixi-in-parts',
    apply: 'build',
    enforce: 'pre',
    resolveId: (id) => (id in PIXI_PARTS ? `\0${id} in parts` : undefined),
    load: (id) => PIXI_PARTS[id.replace(/^\0(.*) in parts$/, '$1')],
    transform: (code, id) =>
      id.endsWith('/gl/WebGLRenderer.mjs') ? `import '${PIXI}unsafe-eval/init.mjs';\n${code}` : undefined,
  };
}

/** Packages whose notices vite does not collect by itself: fonts, and what only workers load. */
const FURTHER_NOTICES = [
  '@fontsource-variable/inter',
  '@fontsource-variable/jetbrains-mono',
  'is-any-array',
  'ml-array-max',
  'ml-array-min',
  'ml-array-rescale',
  'ml-matrix',
  'planck',
];

/** Puts their licences beside the others: the licences want their text wherever the packages go. */
function furtherNotices(): Plugin {
  return {
    name: 'axlewright-further-notices',
    apply: 'build',
    generateBundle() {
      for (const name of FURTHER_NOTICES) {
        const folder = new URL(`./node_modules/${name}/`, import.meta.url);
        const file = readdirSync(folder).find((each) => /^licen[cs]e/i.test(each));
        if (file === undefined) throw new Error(`${name} has no licence text`);
        const source = readFileSync(new URL(file, folder), 'utf8');
        this.emitFile({ type: 'asset', fileName: `licences/${name.replace('/', '-')}.txt`, source });
      }
    },
  };
}

/** Prints the one line a person needs once the server listens; vite itself is started quiet (`npm start`). */
function oneAddress(): Plugin {
  return {
    name: 'axlewright-one-address',
    apply: (_config, { command, isPreview }) =>
      command === 'serve' && isPreview !== true && process.env.VITEST === undefined,
    configureServer({ httpServer }) {
      httpServer?.once('listening', () => {
        const address = httpServer.address();
        const port = typeof address === 'object' && address !== null ? address.port : undefined;
        process.stdout.write(`Axlewright is at http://localhost:${port}/\n`);
      });
    },
  };
}

export default defineConfig({
  plugins: [react(), contentSecurityPolicy(), pixiInParts(), furtherNotices(), oneAddress()],
  base: './',
  build: {
    outDir: 'dist-app',
    target: 'es2022',
    chunkSizeWarningLimit: 600,
    // What is bundled keeps its notices: the build takes them out of the scripts.
    license: { fileName: 'licences/packages.md' },
  },
  worker: { format: 'es' },
  optimizeDeps: {
    // A dependency first met in the middle of a browser test makes vite reload the page under the test.
    include: [
      'axe-core',
      'd3-dsv',
      'd3-scale',
      'idb',
      'ml-matrix',
      'pixi.js',
      'pixi.js/unsafe-eval',
      'planck',
      'react',
      'react-dom',
      'react-dom/client',
      'react/jsx-dev-runtime',
      'react/jsx-runtime',
      'zod',
      'zustand',
      'zustand/middleware',
      'zustand/react/shallow',
      'zustand/vanilla',
    ],
  },
  test: {
    coverage: {
      provider: 'v8',
      include: ['src/**', 'sim/**', 'shared/**'],
      reportsDirectory: 'coverage',
    },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/{unit,property,outside,scenarios,cli,fences}/**/*.test.ts'],
          testTimeout: 30_000,
          benchmark: { include: ['tests/bench/**/*.bench.ts'] },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.{ts,tsx}'],
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            instances: [{ browser: 'chromium' }],
            provider: playwright({ launchOptions: chromiumLaunchOptions() }),
          },
        },
      },
      {
        extends: true,
        test: {
          name: 'app',
          environment: 'node',
          include: ['tests/app/**/*.test.ts'],
          globalSetup: ['tests/app/serve.ts'],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
