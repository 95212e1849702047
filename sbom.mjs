import { readFileSync } from 'node:fs';
import { packagesOf } from './notices.mjs';

/**
 * What ships, part by part, for those who must know: a bill of materials in CycloneDX 1.5 (ECMA-424), from the bundler's own list
 * of inputs. The same build gives the same text, so it names no time.
 *
 * @param {readonly string[]} inputs paths of bundled files, relative to the top of the project
 * @returns {string} text of `dist/sbom.json`
 */
export function sbom(inputs) {
  const { name, version, license } = packageAt('.');
  const components = packagesOf(inputs).map((folder) => {
    const part = packageAt(folder);
    const [, scope, bare] = /^(?:@([^/]+)\/)?(.+)$/.exec(part.name);
    const purl = `pkg:npm/${scope ? `%40${scope}/` : ''}${bare}@${part.version}`;
    return { type: 'library', 'bom-ref': purl, ...called(part.name), version: part.version, purl, ...licensed(part.license) };
  });
  const bill = {
    bomFormat: 'CycloneDX',
    specVersion: '1.5',
    version: 1,
    metadata: {
      component: { type: 'application', 'bom-ref': `pkg:npm/${name}@${version}`, name, version, ...licensed(license) },
    },
    components,
  };
  return `${JSON.stringify(bill, null, 2)}\n`;
}

function packageAt(folder) {
  return JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
}

/** CycloneDX keeps the scope of a package apart from its name. */
function called(name) {
  const [, group, bare] = /^(?:(@[^/]+)\/)?(.+)$/.exec(name);
  return { ...(group && { group }), name: bare };
}

/** An expression where there is a choice, else the identifier; nothing where the package names no licence. */
function licensed(license) {
  if (typeof license !== 'string') return {};
  return { licenses: [/[ (]/.test(license) ? { expression: license } : { license: { id: license } }] };
}
