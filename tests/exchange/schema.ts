import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { XmlDocument, XsdValidator } from 'libxml2-wasm';
import { xmlRegisterFsInputProviders } from 'libxml2-wasm/lib/nodejs.mjs';

const path = fileURLToPath(new URL('../../../shared/musicxml/musicxml.xsd', import.meta.url));

export const hasSchema = existsSync(path);

/** Checks a text against the W3C's schema of MusicXML 4.0; undefined where the schema is not on this machine, which CI must have. */
export type Validate = (xml: string) => readonly string[];

export function schema(): Validate | undefined {
  if (!hasSchema) {
    const missing = 'the MusicXML schema is not beside this repository (../shared/musicxml/musicxml.xsd).';
    if (process.env.CI) throw new Error(`CI can't do without: ${missing}`);
    console.warn(`Skipped: ${missing}`);
    return undefined;
  }
  xmlRegisterFsInputProviders();
  const document = XmlDocument.fromBuffer(readFileSync(path), { url: path });
  const validator = XsdValidator.fromDoc(document);
  return (xml) => {
    const written = XmlDocument.fromString(xml);
    try {
      validator.validate(written);
      return [];
    } catch (error) {
      return [error instanceof Error ? error.message : String(error)];
    } finally {
      written.dispose();
    }
  };
}
