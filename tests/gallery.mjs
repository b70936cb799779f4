/**
 * Drives every scenario that ships and lays their pictures side by side on one page.
 *
 *     npm run gallery                            all of them, into dist/gallery
 *     node tests/gallery.mjs FOLDER [NAME…]      into a folder of choice, only those
 *
 * Each scenario gets a folder with everything that `axlewright drive --out` writes. The exit code is 0 when every run
 * gave a result, passed or not, and 2 otherwise.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const LAUNCHER = join(ROOT, 'sim', 'cli', 'axlewright.mjs');

/** Runs the command. @param {string[]} args */
function axlewright(...args) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [LAUNCHER, ...args], {
    encoding: 'utf8',
    maxBuffer: 64e6,
  });
  return { code: status ?? 2, text: stdout, problems: stderr };
}

/** @param {string} text */
const escaped = (text) => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

/**
 * One picture with its verdict and its files.
 * @param {string} name @param {{ title: string, pass: boolean, verdicts: { pass: boolean }[] }} report
 */
function card(name, report) {
  const failed = report.verdicts.filter((verdict) => !verdict.pass).length;
  const says =
    failed === 0
      ? `all ${report.verdicts.length} criteria hold`
      : `${failed} of ${report.verdicts.length} criteria fail`;
  const files = ['report.json', 'recording.csv', 'events.csv']
    .map((file) => `<a href="${name}/${file}">${file}</a>`)
    .join(' · ');
  return `<figure>
<img src="${name}/loads.svg" alt="Wheel loads: ${escaped(report.title)}">
<figcaption>${escaped(name)}: ${says} · ${files}</figcaption>
</figure>`;
}

const [folder = join(ROOT, 'dist', 'gallery'), ...chosen] = process.argv.slice(2);
const names =
  chosen.length > 0 ? chosen : JSON.parse(axlewright('demos', '--json').text).map((demo) => demo.name);
mkdirSync(folder, { recursive: true });

const cards = [];
for (const name of names) {
  const { code, problems } = axlewright('drive', name, '--quiet', '--out', join(folder, name));
  if (code === 2 || !existsSync(join(folder, name, 'report.json'))) {
    process.stderr.write(problems);
    process.exitCode = 2;
    continue;
  }
  cards.push(card(name, JSON.parse(readFileSync(join(folder, name, 'report.json'), 'utf8'))));
}

const page = `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Axlewright: gallery</title>
<style>
body { font: 14px/1.5 system-ui, sans-serif; max-width: 1200px; margin: 24px auto; padding: 0 16px; color: #1f2328; background: #fff }
figure { margin: 0 0 40px } img { width: 100%; border: 1px solid #d8d6cf } figcaption { color: #6a6a68 }
</style>
<h1>What the scenarios do</h1>
${cards.join('\n')}
</html>
`;
writeFileSync(join(folder, 'index.html'), page);
process.stdout.write(`${cards.length} pictures in ${resolve(folder, 'index.html')}\n`);
