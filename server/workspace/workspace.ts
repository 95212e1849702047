import type { Settings } from '../protocol/settings';
import { findRepeats } from '../solver/repeats';
import { Cancelled, createPace, giveWay, type Runtime } from './pace';
import type { Players } from './players';
import { type Draft, draft, type Snapshot, solveSteps } from './snapshot';

/**
 * The open documents and what is known about each: the only state there is. An edit drops the work on
 * the version before it; the text is read again at the next free moment and its passages are fingered after that,
 * giving way to new messages between them.
 */
export interface Workspace {
  /** Opens a document or replaces its text. */
  write(uri: string, text: string, version: number): void;
  close(uri: string): void;
  /** Asks for the settings again, of one document or of all. */
  reconfigure(uri?: string): void;
  /** Reads a document again because a player file that it names, as `file`, has changed. */
  playerChanged(uri: string, file: string): void;
  /** The newest version, read; undefined when the document is not open. */
  draft(uri: string): Promise<Draft | undefined>;
  /** The newest version, fingered; undefined when the document is not open. Throws `Cancelled` when an edit overtakes it. */
  solved(uri: string): Promise<Snapshot | undefined>;
  /** The same with the other ways of every note worked out as well, so that whoever asks for some of them holds up nobody. */
  prepared(uri: string): Promise<Snapshot | undefined>;
  /** The newest version as far as it is known within a moment: with its fingering unless that takes long. Throws like `solved`. */
  soonest(uri: string): Promise<Draft | Snapshot | undefined>;
  /** The newest version, if it has been fingered already. */
  finished(uri: string): Snapshot | undefined;
  /** True when fingering the document has lately taken longer than a user would wait without seeing anything. */
  slow(uri: string): boolean;
}

export interface Listener {
  /** A new version has been read. */
  drafted(uri: string, draft: Draft): void;
  /** A new version has been fingered. */
  solved(uri: string, snapshot: Snapshot): void;
  /** Work on a document broke off with a fault of ours; the document stays open and the next edit tries again. */
  failed(uri: string, error: unknown): void;
}

/** Longest wait for a solution before the cheap checks are shown without it, ms. */
const PATIENCE = 60;

/** Longest that a hover waits for the fingering of a long passage, ms; for what other ways are read from it does not wait. */
const MOMENT = 4;

/** A file of so many events is fingered before anybody has found the place to point at. */
const SHORT = 2000;

interface Document {
  text: string;
  version: number;
  settings: Promise<Settings>;
  /** The work on the newest version. */
  work: Work | undefined;
  /** The last version that was fingered, to build the next one on. */
  last: Snapshot | undefined;
  /** The newest version under the newest settings is `last`. */
  done: boolean;
  /** How long the last fingering took, ms; unknown for a new document. */
  took: number;
}

interface Work {
  readonly drafted: Promise<Draft>;
  readonly solved: Promise<Snapshot>;
  readonly prepared: Promise<Snapshot>;
}

export function createWorkspace(
  runtime: Runtime,
  settingsFor: (uri: string) => Promise<Settings>,
  listener: Listener,
  /** Without it no player file can be read. */
  players?: Players,
): Workspace {
  const documents = new Map<string, Document>();

  function begin(uri: string, document: Document): Work {
    const wanted = () => documents.get(uri) === document && document.work === work;
    const drafted = read(uri, document, wanted);
    const solved = drafted.then((begun) => {
      listener.drafted(uri, begun);
      return solve(document, begun, wanted);
    });
    const prepared = solved.then(async (snapshot) => {
      listener.solved(uri, snapshot);
      await prepare(snapshot, wanted);
      return snapshot;
    });
    prepared.catch((error: unknown) => {
      if (!(error instanceof Cancelled)) listener.failed(uri, error);
    });
    const work: Work = { drafted, solved, prepared };
    return work;
  }

  async function read(uri: string, document: Document, wanted: () => boolean): Promise<Draft> {
    const { text, version } = document;
    const settings = await document.settings;
    const lookup = await players?.lookup(uri, text);
    await runtime.pause();
    if (!wanted()) throw new Cancelled();
    return draft(text, version, settings, document.last, lookup && { players: lookup });
  }

  async function solve(document: Document, begun: Draft, wanted: () => boolean): Promise<Snapshot> {
    const pace = createPace(runtime, wanted);
    // Whoever waits for the draft is served before a long passage holds everything up.
    if (document.took > PATIENCE) await giveWay(runtime);
    if (!wanted()) throw new Cancelled();
    const steps = solveSteps(begun, document.last);
    const start = runtime.now();
    for (;;) {
      const step = steps.next();
      if (step.done) {
        for (const solution of step.value.solutions) for (const _ of findRepeats(solution)) await pace();
        document.last = step.value;
        document.done = true;
        document.took = runtime.now() - start;
        return step.value;
      }
      await pace();
    }
  }

  /** The backward pass, which other ways are read from, is made while nobody waits, and dropped at the next edit. */
  async function prepare({ solutions }: Snapshot, wanted: () => boolean): Promise<void> {
    await giveWay(runtime);
    const pace = createPace(runtime, wanted);
    for (const { work } of solutions) for (const _ of work.prepare()) await pace();
  }

  function finished(uri: string): Snapshot | undefined {
    const document = documents.get(uri);
    return document?.done ? document.last : undefined;
  }

  function restart(uri: string, document: Document): void {
    document.done = false;
    document.work = begin(uri, document);
  }

  return {
    write(uri, text, version) {
      const open = documents.get(uri);
      if (open) {
        Object.assign(open, { text, version });
        restart(uri, open);
        return;
      }
      const document: Document = {
        text,
        version,
        settings: settingsFor(uri),
        work: undefined,
        last: undefined,
        done: false,
        took: Number.POSITIVE_INFINITY,
      };
      documents.set(uri, document);
      restart(uri, document);
    },
    close(uri) {
      documents.delete(uri);
      players?.closed(uri);
    },
    reconfigure(only) {
      for (const [uri, document] of documents) {
        if (only !== undefined && uri !== only) continue;
        document.settings = settingsFor(uri);
        restart(uri, document);
      }
    },
    playerChanged(uri, file) {
      players?.changed(uri, file);
      const document = documents.get(uri);
      if (document) restart(uri, document);
    },
    async draft(uri) {
      return documents.get(uri)?.work?.drafted;
    },
    async solved(uri) {
      return documents.get(uri)?.work?.solved;
    },
    async prepared(uri) {
      return documents.get(uri)?.work?.prepared;
    },
    async soonest(uri) {
      const work = documents.get(uri)?.work;
      const begun = await work?.drafted;
      if (!work || !begun) return undefined;
      const long = begun.resolved.passages.reduce((sum, { events }) => sum + events.length, 0) > SHORT;
      if (!long) return work.prepared;
      const until = runtime.now() + MOMENT;
      while (!finished(uri) && runtime.now() < until) await runtime.pause();
      return finished(uri) ?? begun;
    },
    finished,
    slow(uri) {
      return (documents.get(uri)?.took ?? 0) > PATIENCE;
    },
  };
}
