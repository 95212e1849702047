import { readdirSync, readFileSync } from 'node:fs';
import type { Position } from 'vscode-languageserver';
import type { SceneReply } from '../../server/protocol/messages';
import { type LanguageClient, PULLING, startClient } from '../support/language-client';
import type { Curve } from './curves';
import { type Figure, ms } from './figure';
import { variedFile, WORDS } from './varied-file';

/** Keys pressed, and how long apart, ms: a fast typist, a usual one, one who thinks. */
const KEYS = 24;
const PACES = [10, 50, 150];
const SIZES = [100, 1_000, 10_000];

/** What one size of file costs the server, driven over its standard streams as an editor drives it. */
interface Driven {
  /** From start to fingered, processor ms. */
  readonly opened: number;
  /** A key with all that an editor asks for after it, processor ms, without the preview and with it. */
  readonly key: number;
  readonly previewed: number;
  /** What the preview is sent, bytes: all of a scene, and after a key in the middle of the cases (now and then all is sent again). */
  readonly scene: number;
  readonly change: number;
}

/** The built server in a process of its own: what a key costs it, by the length of the file. Curves are kept for the report. */
export async function serverBench(curves: Curve[]): Promise<readonly Figure[]> {
  const by = new Map<number, Driven>();
  for (const size of SIZES) by.set(size, await driven(size));
  const curve = (name: string, of: (one: Driven) => number) =>
    curves.push({ name, points: SIZES.map((size) => [size, of(by.get(size)!)]) });
  curve('opened and fingered, processor ms', ({ opened }) => opened);
  curve('a key, processor ms', ({ key }) => key);
  curve('a key with the preview open, processor ms', ({ previewed }) => previewed);
  const [short, long] = [by.get(1_000)!, by.get(10_000)!];
  const against = (what: string, one: number, other: number, most: number, said = ms): Figure => ({
    what,
    ratio: one / other,
    goal: { most },
    measured: `${said(one)} against ${said(other)}`,
  });
  const bytes = (count: number) => `${Math.round(count)} bytes`;
  return [
    against('server: a key in 10,000 notes, against one in 1,000 (wanted: 1.5)', long.key, short.key, 1.75),
    against('server: a key in 10,000 notes, against opening them (wanted: 1/300)', long.key, long.opened, 1 / 130),
    against('server: a key in 10,000 notes with the preview open, against one without', long.previewed, long.key, 2),
    against(
      'server: what a key sends the preview of 10,000 notes, against the whole scene',
      long.change,
      long.scene,
      1 / 100,
      bytes,
    ),
    await firstHover(10_000),
    ...(await hostile()),
  ];
}

async function driven(notes: number): Promise<Driven> {
  const uri = `file:///bench/${notes}.passage`;
  const client = await startClient({ capabilities: PULLING, options: { commands: true } });
  try {
    const typist = new Typist(client, uri, variedFile(notes));
    const before = processor(client);
    await client.open(uri, typist.text());
    await client.solved(uri, 1);
    const opened = processor(client) - before;
    await client.pull(uri);
    await typist.type(KEYS, 50);
    const key = Math.min(...(await inTurn(PACES, (pace) => typist.type(KEYS, pace))));
    const scene = await typist.preview();
    await typist.type(KEYS, 50);
    const begun = typist.sent.length;
    const previewed = Math.min(...(await inTurn(PACES, (pace) => typist.type(KEYS, pace))));
    return { opened, key, previewed, scene, change: median(typist.sent.slice(begun)) };
  } finally {
    await client.stop();
  }
}

/** By the clock, from a server with other work to do; of several servers the quickest, for what else the machine does only ever adds. */
async function firstHover(notes: number): Promise<Figure> {
  const took = await inTurn([1, 2, 3, 4], async () => {
    const uri = 'file:///bench/hover.passage';
    const client = await startClient({ capabilities: PULLING, options: { commands: true } });
    const typist = new Typist(client, uri, variedFile(notes));
    await client.open(uri, typist.text());
    await client.solved(uri, 1);
    const asked = performance.now();
    await client.request('textDocument/hover', { textDocument: { uri }, position: typist.spot() });
    const answered = performance.now() - asked;
    await client.stop();
    return answered;
  });
  return {
    what: `server: first hover in ${notes.toLocaleString('en')} notes just fingered, against ten milliseconds`,
    ratio: Math.min(...took) / 10,
    goal: { most: 1 },
    measured: took.map(ms).join(', '),
  };
}

function median(all: readonly number[]): number {
  return [...all].sort((a, b) => a - b)[all.length >> 1]!;
}

async function inTurn<T, R>(all: readonly T[], work: (one: T) => Promise<R>): Promise<readonly R[]> {
  const made: R[] = [];
  for (const one of all) made.push(await work(one));
  return made;
}

/** Somebody who changes one note after another, in an editor that asks after each key for what it shows. */
class Typist {
  private readonly lines: string[];
  private version = 1;
  private keys = 0;
  private stamp: string | undefined;
  private previewing = false;
  private drawing = false;
  private coloured: string | undefined;
  /** Bytes of each answer that the preview was sent. */
  readonly sent: number[] = [];

  constructor(
    private readonly client: LanguageClient,
    private readonly uri: string,
    text: string,
  ) {
    this.lines = text.split('\n');
  }

  text(): string {
    return this.lines.join('\n');
  }

  /** In the middle of the file. */
  spot(): Position {
    return { line: this.lines.length >> 1, character: 5 };
  }

  /** Opens the preview; the bytes of its scene. */
  async preview(): Promise<number> {
    this.previewing = true;
    await this.scene();
    return this.sent[0]!;
  }

  /** So many keys so many ms apart; what each costs the server, processor ms. */
  async type(keys: number, pace: number): Promise<number> {
    const before = processor(this.client);
    const answers: Promise<unknown>[] = [];
    for (let key = 0; key < keys; key++) {
      await this.key();
      answers.push(this.ask());
      await new Promise((go) => setTimeout(go, pace));
    }
    await Promise.allSettled(answers);
    await this.client.solved(this.uri, this.version);
    await Promise.allSettled([this.ask()]);
    return (processor(this.client) - before) / keys;
  }

  private async key(): Promise<void> {
    const key = this.keys++;
    // Along a line, then on to the next, from the middle of the file on.
    const line = 2 + (((this.lines.length >> 1) + (key >> 3)) % (this.lines.length - 3));
    const at = 1 + (key % 8);
    const words = this.lines[line]!.split(' ');
    const [was, now] = [words[at]!, WORDS[(key * 53) % WORDS.length]!];
    const character = words.slice(0, at).join(' ').length + 1;
    words[at] = now;
    this.lines[line] = words.join(' ');
    await this.client.change(this.uri, ++this.version, {
      range: { start: { line, character }, end: { line, character: character + was.length } },
      text: now,
    });
  }

  /** What an editor asks for after a change: problems, what it shows of the lines in sight, what it shows at the caret. */
  private async ask(): Promise<void> {
    const textDocument = { uri: this.uri };
    const position = this.spot();
    const range = { start: { line: position.line - 20, character: 0 }, end: { line: position.line + 20, character: 0 } };
    const asked = (method: string, params: object) =>
      this.client.request(`textDocument/${method}`, { textDocument, ...params }).catch(() => undefined);
    await Promise.all([
      this.client.pull(this.uri),
      this.tokens(),
      asked('inlayHint', { range }),
      asked('hover', { position }),
      asked('completion', { position }),
      ...(this.previewing ? [this.scene()] : []),
    ]);
  }

  private async tokens(): Promise<void> {
    const textDocument = { uri: this.uri };
    const method = `textDocument/semanticTokens/full${this.coloured ? '/delta' : ''}`;
    const params = { textDocument, ...(this.coloured && { previousResultId: this.coloured }) };
    const reply = await this.client.request<{ resultId: string } | null>(method, params).catch(() => null);
    this.coloured = reply?.resultId ?? this.coloured;
  }

  /** One at a time, as the preview asks: what changed meanwhile comes with the next. */
  private async scene(): Promise<void> {
    if (this.drawing) return;
    this.drawing = true;
    const reply = await this.client.request<SceneReply>('passagework/scene', { uri: this.uri, have: this.stamp });
    this.stamp = reply?.stamp;
    this.sent.push(Buffer.byteLength(JSON.stringify(reply)));
    this.drawing = false;
  }
}

/** Files made to keep a server busy: all that can be done with all of them at once, asked for and answered. */
async function hostile(): Promise<readonly Figure[]> {
  const waves = Array.from({ length: 500 }, () => `${Array(8).fill('wave').join(' ')} |`);
  const files = {
    'a motif used 4,000 times': ['motif wave = 1/16 D5 E6o F#5 A9', ...waves].join('\n'),
    '20,000 lines of settings': [...Array(20_000).fill('hand: meduim'), 'D5 E5'].join('\n'),
  };
  return inTurn(Object.entries(files), async ([what, text]): Promise<Figure> => {
    const client = await startClient({ capabilities: PULLING, options: { commands: true } });
    const uri = 'file:///bench/hostile.passage';
    await client.open(uri, text);
    await client.solved(uri, 1);
    await client.pull(uri);
    const before = processor(client);
    await client.request('textDocument/codeAction', {
      textDocument: { uri },
      range: { start: { line: 0, character: 0 }, end: { line: text.split('\n').length, character: 0 } },
      context: { diagnostics: [] },
    });
    const took = processor(client) - before;
    await client.stop();
    return {
      what: `server: what can be done with all of ${what}, against one second`,
      ratio: took / 1000,
      goal: { most: 1 },
      measured: ms(took),
    };
  });
}

/** Processor time that the server has taken so far, ms, all its threads together (the kernel's documentation, `sched-stats`). */
function processor({ process: { pid } }: LanguageClient): number {
  const tasks = `/proc/${pid}/task`;
  const taken = readdirSync(tasks).map((task) => Number(readFileSync(`${tasks}/${task}/schedstat`, 'utf8').split(' ')[0]));
  return taken.reduce((sum, one) => sum + one, 0) / 1e6;
}
