import { readFileSync } from 'node:fs';
import { version } from '../../package.json';
import type { DiagramChoice } from '../exchange/sheet/diagrams';
import { sheetHtml } from '../exchange/sheet/html';
import { PAPERS, type PaperName } from '../exchange/sheet/paper';
import type { SheetFonts } from '../exchange/sheet/pdf';
import { buildSheet } from '../exchange/sheet/sheet';
import { sealed } from '../scene/page/sealed';
import { scenePassage } from '../scene/scene';
import type { Marking } from '../scene/staff/marks';
import { CannotRun, EXIT } from './cannot-run';
import { findInputs, readInput } from './inputs';
import { type PlayerOptions, playerFrom } from './options';
import { checkOutput, everythingRead, placeIn } from './output';
import { replaceFile } from './replace-file';
import { say } from './say';
import { study } from './study';

export interface SheetOptions extends PlayerOptions {
  readonly out?: string;
  readonly paper?: string;
  readonly title?: string;
  readonly remark?: readonly string[];
  readonly diagrams?: string;
  readonly fingers?: string;
  readonly force?: boolean;
}

/** `passagework sheet`: all passages of the given files on one printed sheet for a student, as PDF or as a web page. */
export async function runSheet(words: readonly string[], options: SheetOptions): Promise<number> {
  const out = placeIn(options.out ?? '.', 'sheet.pdf');
  const form = /\.(pdf|html?)$/i.exec(out)?.[1]?.toLowerCase();
  if (!form) throw new CannotRun(`--out: a sheet is a .pdf or a .html file, and ${out} is neither.`);
  const names = await findInputs(words);
  checkOutput({ path: out, force: options.force, sources: everythingRead(names, options.player) });
  const player = playerFrom(options);
  const studies = names.map((name) => study(readInput(name), player, name));
  const solutions = studies.flatMap((each) => each.solutions);
  if (solutions.length === 0) throw new CannotRun('There is no passage in it to print.');
  const title = options.title ?? (studies.length === 1 ? studies[0]?.resolved.title : '');
  const made = buildSheet(
    solutions.map((solution) => scenePassage(solution)),
    {
      paper: paperFrom(options.paper),
      ...(title && { title }),
      remarks: options.remark ?? [],
      diagrams: diagramsFrom(options.diagrams),
      marking: markingFrom(options.fingers),
      version,
    },
  );
  if (made.unknown.length > 0)
    throw new CannotRun(`--diagrams: no note begins at ${made.unknown.join(', ')}; write bar:beat, as in 3:2.`);
  if (form !== 'pdf') replaceFile(out, await sealed(sheetHtml(made)));
  else {
    const { sheetPdf } = await import('../exchange/sheet/pdf');
    replaceFile(out, await sheetPdf(made, fonts()));
  }
  say(`Sheet: ${out}`);
  return EXIT.clean;
}

function paperFrom(words = 'A4'): PaperName {
  const name = Object.keys(PAPERS).find((paper) => paper.toLowerCase() === words.toLowerCase());
  if (!name) throw new CannotRun(`--paper: ${words} is not one of ${Object.keys(PAPERS).join(', ')}.`);
  return name as PaperName;
}

function markingFrom(words = 'changes'): Marking {
  if (words !== 'changes' && words !== 'all') throw new CannotRun(`--fingers: ${words} is neither changes nor all.`);
  return words;
}

function diagramsFrom(words = 'harmonics'): DiagramChoice {
  return words === 'none' || words === 'harmonics' ? words : words.split(',').map((place) => place.trim());
}

/** They ship beside the command. */
function fonts(): SheetFonts {
  const font = (face: string) => readFileSync(new URL(`./fonts/${face}.ttf`, import.meta.url));
  return { regular: font('regular'), bold: font('bold'), italic: font('italic') };
}
