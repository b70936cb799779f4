/**
 * Gets a checkout ready: the right Node, the packages of the lock file and, with `--browser`, a Chromium.
 *
 * npm runs this before `start`, `test`, `check`, `bench` and `build`, and the command line of a checkout calls
 * `ensurePackages`. It uses Node built-ins only, because it runs before anything is installed. When nothing has
 * changed it does nothing and takes under a tenth of a second.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  readFileSync,
  realpathSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const STATE = join(ROOT, 'node_modules', '.cache', 'axlewright');
const STAMP = join(STATE, 'installed');
const CHROMIUM_PATH_FILE = join(STATE, 'chromium-path');
const LEAST_NODE = [20, 19];

/** A set-up that cannot go on; its message is one line that says what to do. */
export class SetupError extends Error {}

/** @param {string} version such as `20.20.2` @throws {SetupError} when it is older than the project needs */
export function checkNode(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [wantedMajor, wantedMinor] = LEAST_NODE;
  if (major > wantedMajor || (major === wantedMajor && minor >= wantedMinor)) return;
  throw new SetupError(
    `Axlewright needs Node ${LEAST_NODE.join('.')} or newer, this is ${version}: install it from nodejs.org.`,
  );
}

/** What the installed packages depend on. A hash and not file dates, because git does not keep dates. */
function wantedStamp() {
  const lock = readFileSync(join(ROOT, 'package-lock.json'));
  const hash = createHash('sha256').update(lock).digest('hex');
  return { hash, machine: `node ${process.versions.modules} ${process.platform} ${process.arch}` };
}

function readIfThere(path) {
  return existsSync(path) ? readFileSync(path, 'utf8') : '';
}

/** True when `npm install` or `npm ci`, run by hand, put on the disk just what the lock file asks for. */
function installedByHand() {
  const installed = readIfThere(join(ROOT, 'node_modules', '.package-lock.json'));
  if (installed === '') return false;
  const have = JSON.parse(installed).packages;
  const want = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')).packages;
  return Object.entries(want).every(
    ([path, { integrity, optional }]) =>
      path === '' || (have[path] === undefined ? optional === true : have[path].integrity === integrity),
  );
}

/** How to start npm. Under `npm run` that is npm's own script, so it works where `npm` is a shell wrapper. */
function runNpm(args) {
  const script = process.env.npm_execpath;
  const options = { cwd: ROOT, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] };
  if (script?.endsWith('.js')) return spawnSync(process.execPath, [script, ...args], options);
  return spawnSync('npm', args, { ...options, shell: process.platform === 'win32' });
}

/**
 * Installs the packages of the lock file unless they are there already.
 * The stamp is written last, so an interrupted installation is done again.
 * @throws {SetupError} when npm fails; its own output is in the message
 */
export function ensurePackages() {
  const { hash, machine } = wantedStamp();
  const [installedHash, installedOn = machine] = readIfThere(STAMP).split('\n');
  if (installedHash === hash && installedOn === machine) return;
  if (installedOn !== machine || !installedByHand()) {
    const chromium = readIfThere(CHROMIUM_PATH_FILE);
    process.stderr.write('Installing packages (about ten seconds, once) …\n');
    const npm = runNpm(['ci', '--no-audit', '--no-fund']);
    if (npm.status !== 0) {
      throw new SetupError(
        `${npm.stdout ?? ''}${npm.stderr ?? ''}npm ci failed (above): check the network and the npm registry, then try again.`,
      );
    }
    if (chromium !== '') remember(CHROMIUM_PATH_FILE, chromium);
  }
  remember(STAMP, `${hash}\n${machine}`);
}

function remember(file, text) {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}

/** @param {string} path @returns {boolean} whether this is a file that may be started */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

const CHROMIUM_NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** Where Chromium is found when it is not on the PATH: the usual places on a Mac and on Windows. */
function usualPlaces(env) {
  const windows = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA].filter(Boolean);
  return [
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    ...windows.map((folder) => join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe')),
    ...windows.map((folder) => join(folder, 'Chromium', 'Application', 'chrome.exe')),
  ];
}

/**
 * Looks for a Chromium on this machine.
 * @param {Record<string, string | undefined>} env environment; `CHROMIUM` names a browser and wins over all else
 * @returns {string | undefined} path of the program
 * @throws {SetupError} when `CHROMIUM` is set to something that cannot be started: it is never ignored
 */
export function findChromium(env = process.env) {
  if (env.CHROMIUM) {
    if (isExecutable(env.CHROMIUM)) return env.CHROMIUM;
    throw new SetupError(
      `CHROMIUM is set to ${env.CHROMIUM}, which is not a program that can be started: correct it or unset it.`,
    );
  }
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  const onPath = folders.flatMap((folder) => CHROMIUM_NAMES.map((name) => join(folder, name)));
  return [...onPath, ...usualPlaces(env)].find(isExecutable);
}

/** Installs Debian's Chromium and a font, where this process may. @returns {boolean} whether apt-get succeeded */
function installChromiumWithApt() {
  if (process.getuid?.() !== 0) return false;
  if (spawnSync('apt-get', ['--version']).status !== 0) return false;
  process.stderr.write('Installing Chromium with apt-get (about 110 MB, once) …\n');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const apt = (...args) => spawnSync('apt-get', args, { env, encoding: 'utf8' });
  apt('update', '-qq');
  const result = apt('install', '-y', '-qq', '--no-install-recommends', 'chromium', 'fonts-dejavu-core');
  if (result.status !== 0) process.stderr.write(`${result.stderr ?? ''}\n`);
  return result.status === 0;
}

/**
 * Finds or installs a Chromium and writes its path where vite.config.ts reads it.
 * @throws {SetupError} when there is none and none can be installed
 */
export function ensureChromium() {
  const path = findChromium() ?? (installChromiumWithApt() ? findChromium() : undefined);
  if (path === undefined) {
    throw new SetupError(
      'The browser tests need Chromium: install it (Debian: sudo apt-get install chromium) or set CHROMIUM to its path.',
    );
  }
  if (readIfThere(CHROMIUM_PATH_FILE) !== `${path}\n`) remember(CHROMIUM_PATH_FILE, `${path}\n`);
}

if (process.argv[1] !== undefined && fileURLToPath(import.meta.url) === realpathSync(process.argv[1])) {
  try {
    checkNode();
    ensurePackages();
    if (process.argv.includes('--browser')) ensureChromium();
  } catch (error) {
    if (!(error instanceof SetupError)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}
