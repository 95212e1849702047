import type {
  ClientCapabilities,
  Connection,
  Diagnostic,
  DocumentDiagnosticReport,
  PublishDiagnosticsParams,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { playerProblems } from '../features/player/player-problems';
import type { Problem } from '../rules/rule';
import { FINGERPRINT_DIGITS, fingerprintSubjects } from '../workspace/baseline';
import { Cancelled } from '../workspace/pace';
import type { Draft } from '../workspace/snapshot';
import type { Listener, Workspace } from '../workspace/workspace';
import { type Places, placesIn } from './places';
import { playerOf } from './player-requests';
import { toDiagnostic } from './problems';
import type { Typing } from './typing';

/** Longest a client that pulls is kept waiting for the fingering before it gets the cheap checks alone, ms. */
const PATIENCE = 60;

/** How problems reach the client: it pulls them, or they are pushed to it. Never both, or it would show each one twice. */
export interface Diagnostics extends Pick<Listener, 'drafted' | 'solved'> {
  /** A player file has been opened or changed. */
  player(document: TextDocument): void;
  closed(uri: string): void;
  /** Everything shown so far was worked out under other settings. */
  outdated(): void;
  /** Typing has stopped: what was told softly as unfinished is told as it is. */
  rested(uri: string): void;
}

export interface DiagnosticsSetup {
  readonly connection: Connection;
  readonly abilities: ClientCapabilities;
  readonly pages: string | undefined;
  readonly workspace: () => Workspace;
  readonly typing: Typing;
  /** Places in the open document, if `version` is still its newest. */
  readonly placesOf: (uri: string, version: number) => Places | undefined;
}

export function pulls(abilities: ClientCapabilities): boolean {
  return abilities.textDocument?.diagnostic !== undefined;
}

/** Sends what is known of every version: all at once where the fingering is quick, else the cheap checks first. */
export function pushedDiagnostics({ connection, pages, workspace, typing, placesOf }: DiagnosticsSetup): Diagnostics {
  /** What was told softly, to be told again. */
  const soft = new Map<string, Draft>();
  const publish = (params: PublishDiagnosticsParams) => void connection.sendDiagnostics(params);
  const send = (uri: string, draft: Draft) => {
    const { version, problems, tree } = draft;
    const places = placesOf(uri, version);
    if (!places) return;
    const unfinished = typing.unfinished(uri, version, tree.text);
    soft.delete(uri);
    if (problems.some(unfinished)) soft.set(uri, draft);
    publish({
      uri,
      version,
      diagnostics: problems.map((problem) => toDiagnostic(problem, places, pages, unfinished(problem))),
    });
  };
  return {
    drafted: (uri, draft) => {
      if (workspace().slow(uri)) send(uri, draft);
    },
    solved: send,
    player: (document) => publish({ uri: document.uri, version: document.version, diagnostics: playerDiagnostics(document) }),
    closed(uri) {
      soft.delete(uri);
      publish({ uri, diagnostics: [] });
    },
    outdated: () => undefined,
    rested(uri) {
      const draft = soft.get(uri);
      if (draft) send(uri, draft);
    },
  };
}

/** Answers the client's questions; where an answer lacked the fingering, asks it to ask again once that is there. */
export function pulledDiagnostics(setup: DiagnosticsSetup): Diagnostics & { answer: DiagnosticsAnswer } {
  const { connection, abilities, pages, workspace, typing, placesOf } = setup;
  const canRefresh = abilities.workspace?.diagnostics?.refreshSupport === true;
  const incomplete = new Set<string>();
  /** Documents with something that was told softly. */
  const soft = new Set<string>();
  let stamp = 0;
  const stamps = new WeakMap<readonly Problem[], string>();

  /** Named by the very list of problems, so a client that has it already gets it only once. */
  function resultId(problems: readonly Problem[]): string {
    const known = stamps.get(problems) ?? String(++stamp);
    stamps.set(problems, known);
    return known;
  }

  async function known(uri: string): Promise<Draft | undefined> {
    const draft = await workspace().draft(uri);
    const finished = workspace().finished(uri);
    if (finished || !draft || !canRefresh) return finished ?? workspace().solved(uri);
    if (!workspace().slow(uri)) {
      const soon = await Promise.race([workspace().solved(uri), new Promise<undefined>((stop) => setTimeout(stop, PATIENCE))]);
      if (soon) return soon;
    }
    incomplete.add(uri);
    return draft;
  }

  function refresh(): void {
    if (canRefresh) connection.languages.diagnostics.refresh().catch(() => undefined);
  }

  return {
    drafted: () => undefined,
    solved: (uri) => {
      if (incomplete.delete(uri)) refresh();
    },
    player: () => undefined,
    closed(uri) {
      incomplete.delete(uri);
      soft.delete(uri);
    },
    outdated: refresh,
    rested(uri) {
      if (soft.delete(uri)) refresh();
    },
    async answer(uri, previous) {
      const draft = await known(uri);
      if (!draft) return { kind: 'full', items: [] };
      const places = placesOf(uri, draft.version);
      if (!places) throw new Cancelled();
      const unfinished = canRefresh ? typing.unfinished(uri, draft.version, draft.tree.text) : () => false;
      const softly = draft.problems.some(unfinished);
      if (softly) soft.add(uri);
      const id = `${resultId(draft.problems)}${softly ? ' while typing' : ''}`;
      if (id === previous) return { kind: 'unchanged', resultId: id };
      const problems = await withoutKnown(draft);
      const items = problems.map((problem) => toDiagnostic(problem, places, pages, unfinished(problem)));
      return { kind: 'full', resultId: id, items };
    },
  };
}

/** The problems that no baseline of the file's project has recorded. Only an editor that asks hands baselines on. */
async function withoutKnown({ tree, problems, settings }: Draft): Promise<readonly Problem[]> {
  if (settings.known.length === 0) return problems;
  const known = new Set(settings.known);
  const prints = await Promise.all(fingerprintSubjects(tree, problems).map(fingerprint));
  return problems.filter((_, at) => !known.has(prints[at]!));
}

/** As the command makes it (see server/command/finding.ts), with what Node and web workers have in common. */
async function fingerprint(subject: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(subject));
  const hex = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.slice(0, FINGERPRINT_DIGITS);
}

/** What is wrong in a player file, for a client that asks. */
export function playerReport(document: TextDocument): DocumentDiagnosticReport {
  return { kind: 'full', items: playerDiagnostics(document) };
}

function playerDiagnostics(document: TextDocument): Diagnostic[] {
  const places = placesIn(document);
  return playerProblems(playerOf(document)).map((problem) => toDiagnostic(problem, places));
}

export type DiagnosticsAnswer = (uri: string, previous: string | undefined) => Promise<DocumentDiagnosticReport>;
