import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';
import { Converter } from '../../client/converter';
import {
  EXPORT_REQUEST,
  type ExportParams,
  type ExportReply,
  IMPORT_REQUEST,
  type ImportReply,
  LISTEN_REQUEST,
} from '../../server/protocol/messages';
import { converterAt } from '../support/converter';

const STUDY = 'passage: Buoy\ntempo: 1/4 = 60\n1/4 D6o E6o F#6o A6o ||\n\npassage: Bell\n1/2 E6o+B6o A6o ||\n';
const params: ExportParams = {
  uri: 'file:///studies/a.passage',
  text: STUDY,
  format: 'musicxml',
  line: 0,
  paper: 'A4',
  marking: 'changes',
  instrument: '',
  hand: '',
};
const text = (base64: string) => Buffer.from(base64, 'base64').toString('utf8');

const converter = converterAt('dist/server/node-conversion.js', { players: { 'ines.player': 'hand: small\n' } });
const exported = async (given: Partial<ExportParams>) => {
  const reply = await converter.request<ExportParams, ExportReply>(EXPORT_REQUEST, { ...params, ...given });
  if ('problem' in reply) throw new Error(reply.problem);
  return reply;
};

describe('the converter', () => {
  it('writes the passage at the cursor, and reads back what it wrote', async () => {
    const score = await exported({ line: 5 });
    expect(score.title).toBe('Bell');
    const read = await converter.request<object, ImportReply>(IMPORT_REQUEST, { base64: score.base64 });
    expect(read).toMatchObject({ text: expect.stringContaining('passage: Bell'), parts: [{ id: expect.any(String) }] });
    expect(read).toMatchObject({ text: expect.stringMatching(/E6o.*\+.*B6o/) });
  });

  it('takes instrument and hand from the settings where the file names none', async () => {
    const sheet = text((await exported({ format: 'html', instrument: 'viola', hand: 'small' })).base64);
    expect(sheet).toContain('viola');
    expect(sheet).toMatch(/small hand/);
    expect(text((await exported({ format: 'html' })).base64)).toMatch(/medium hand/);
  });

  it('writes a sheet as PDF with its fonts, where Node runs it', async () => {
    const pdf = Buffer.from((await exported({ format: 'pdf' })).base64, 'base64');
    // How a PDF begins and ends, and an embedded TrueType font: ISO 32000-2, 7.5.2, 7.5.5 and 9.9.
    expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(pdf.subarray(-6).toString('latin1')).toContain('%%EOF');
    expect(pdf.toString('latin1')).toContain('/FontFile2');
  });

  it('takes the hand of the player whose file the passage names', async () => {
    const named = await exported({ format: 'html', text: `player: ines.player\n\n${STUDY}` });
    expect(text(named.base64)).toMatch(/ines’s hand/);
  });

  it('records and plays: RIFF and MIDI files by their first bytes', async () => {
    // Resource Interchange File Format (Microsoft and IBM 1991) and Standard MIDI Files 1.0 (1988).
    expect(text((await exported({ format: 'wav' })).base64).slice(0, 4)).toBe('RIFF');
    expect(text((await exported({ format: 'midi' })).base64).slice(0, 4)).toBe('MThd');
  });

  it('says what is wrong with a file that is no score, and with a passage that has no notes', async () => {
    const garbage = await converter.request<object, ImportReply>(IMPORT_REQUEST, { base64: btoa('not a score') });
    expect(garbage).toMatchObject({ problem: expect.stringMatching(/\w+ .*\./) });
    const empty = await converter.request<ExportParams, ExportReply>(EXPORT_REQUEST, { ...params, text: '// nothing yet' });
    expect(empty).toMatchObject({ problem: expect.stringContaining('no notes') });
  });

  it('leaves no program behind', async () => {
    const ended = new Promise<void>((done) => {
      void converterAt('dist/server/node-conversion.js', { ended: done }).request<ExportParams, ExportReply>(
        EXPORT_REQUEST,
        params,
      );
    });
    await ended;
  });

  it('ends at once where it is cancelled, though its program closes nothing, as a web worker does not', async () => {
    const [here, there] = [new PassThrough(), new PassThrough()];
    let ended = 0;
    const deaf = new Converter(
      async () => ({
        transports: { reader: new StreamMessageReader(here), writer: new StreamMessageWriter(there) },
        end: () => ended++,
      }),
      async () => ({ missing: 'there is no such file' }),
    );
    let cancel = () => {};
    const asked = deaf.request(LISTEN_REQUEST, {}, {}, (end) => {
      cancel = end;
    });
    await expect.poll(() => there.readableLength).toBeGreaterThan(0);
    cancel();
    await expect(asked).rejects.toThrow(/ended before/);
    expect(ended).toBeGreaterThan(0);
  });

  it('fails, rather than wait for ever, where the program can’t start', async () => {
    await expect(converterAt('dist/server/no-such-program.js').request(EXPORT_REQUEST, params)).rejects.toThrow(/ended before/);
  });
});
