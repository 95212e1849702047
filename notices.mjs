import { readdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';

/** Licences that let us ship a part inside an MIT-licensed program, notice attached. */
const ACCEPTED = new Set([
  'MIT',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '0BSD',
  'Apache-2.0',
  'OFL-1.1',
  'BlueOak-1.0.0',
  'Unlicense',
  'CC0-1.0',
]);

/** Packages whose package.json names no licence; their licence files were read and agreed to. */
const AGREED = new Set(['dejavu-fonts-ttf', 'png-js']);

/**
 * The notices of every package that ended up in a bundle, and of every file of ours that came from others and has its
 * licence beside it; from the bundler's own list of inputs, so nothing shipped can be forgotten. Throws on a licence
 * we have not agreed to ship.
 *
 * @param {readonly string[]} inputs paths of bundled files, relative to the top of the project
 * @returns {string} text of `dist/NOTICES.txt`
 */
export function notices(inputs) {
  const folders = new Set(inputs.filter((path) => !path.includes('node_modules')).map(dirname));
  const parts = [
    ...packagesOf(inputs).map(packageNotice),
    ...[...folders]
      .filter((folder) => folder !== '.')
      .sort()
      .flatMap(ownNotice),
  ];
  return `Passagework contains these parts of others, with thanks.\n\n${parts.join(`\n${'-'.repeat(78)}\n\n`)}`;
}

/**
 * Folders of the packages that bundled files come from, each once.
 *
 * @param {readonly string[]} inputs paths of bundled files, relative to the top of the project
 * @returns {readonly string[]}
 */
export function packagesOf(inputs) {
  return [...new Set(inputs.flatMap((path) => path.match(/^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/)?.[0] ?? []))].sort();
}

function packageNotice(folder) {
  const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  const terms = String(license).replace(/[()]/g, '').split(' OR ');
  if (!AGREED.has(name) && !terms.some((term) => ACCEPTED.has(term))) {
    throw new Error(
      `${name} ${version} is under ${license}, which is not among the licences we ship: take another part or agree to it in notices.mjs`,
    );
  }
  const [text = 'No licence text in the package.'] = licences(folder);
  return `${name} ${version} (${license})\n\n${text}\n`;
}

function ownNotice(folder) {
  return licences(folder).map((text) => `From ${folder}\n\n${text}\n`);
}

function licences(folder) {
  const files = readdirSync(folder).filter((file) => /licen[cs]e|^copying/i.test(file) && !/\.(ts|js|json)$/.test(file));
  return files.map((file) => readFileSync(`${folder}/${file}`, 'utf8').trim());
}
