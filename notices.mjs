import { existsSync, readdirSync, readFileSync } from 'node:fs';

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

/**
 * The notices of every package that ended up in a bundle, from the bundler's own list of inputs, so nothing
 * shipped can be forgotten. Throws on a licence we have not agreed to ship.
 *
 * @param {readonly string[]} inputs paths of bundled files, relative to the top of the project
 * @returns {string} text of `dist/NOTICES.txt`
 */
export function notices(inputs) {
  const folders = new Set(inputs.flatMap((path) => path.match(/^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/)?.[0] ?? []));
  const parts = [...folders].sort().map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
    const terms = String(license).replace(/[()]/g, '').split(' OR ');
    if (!terms.some((term) => ACCEPTED.has(term))) {
      throw new Error(
        `${name} ${version} is under ${license}, which is not among the licences we ship: take another part or agree to it in notices.mjs`,
      );
    }
    const file = readdirSync(folder).find((entry) => /^(licen[cs]e|copying)/i.test(entry));
    return `${name} ${version} (${license})\n\n${file && existsSync(`${folder}/${file}`) ? readFileSync(`${folder}/${file}`, 'utf8').trim() : 'No licence text in the package.'}\n`;
  });
  return `Passagework contains these parts of others, with thanks.\n\n${parts.join(`\n${'-'.repeat(78)}\n\n`)}`;
}
