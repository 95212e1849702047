import { cac } from 'cac';
import { version } from '../../package.json';
import { CannotRun, EXIT } from './cannot-run';
import type { CheckOptions } from './check';
import type { ConvertOptions } from './convert';
import type { ExercisesOptions } from './exercises';
import { STANDARD_INPUT } from './inputs';
import type { PlayerOptions } from './options';
import type { SheetOptions } from './sheet';
import type { SolveOptions } from './solve';

/** The command line. Each command's own code is loaded only when it is asked for, so a start costs what it uses. */
async function main(argv: readonly string[]): Promise<number> {
  const cli = cac('passagework');
  let run: (() => Promise<number>) | undefined;

  const player = (command: ReturnType<typeof cli.command>) =>
    command
      .option('--hand <hand>', 'Hand instead of the file\'s: small, medium, large, or measured reaches: "1-2 48, 1-4 98"')
      .option('--player <file>', "Whose hand, instrument and attempts count instead of the file's: a .player file")
      .option('--tempo <tempo>', 'Tempo instead of the file\'s: "1/4 = 96", or beats a minute')
      .option('--fail-on <severity>', 'Least severity that fails: error, warning, information, hint, never', {
        default: 'error',
      });

  player(cli.command('check [...files]', 'Find what cannot be played, and what is risky'))
    .option('--format <format>', 'text, json or sarif', { default: 'text' })
    .option('--fix', 'Apply the cures that are safe unasked')
    .option('--watch', 'Check again whenever a file changes')
    .option('--baseline <file>', 'Leave out the findings recorded in this file')
    .option('--write-baseline <file>', 'Record all present findings in this file')
    .option('--hands <hands>', 'Which hand can play what, and at which tempo: small,medium,large')
    .option('--players <files>', 'Which player can play what, and at which tempo: ines.player,mattis.player')
    .option('--chance <chance>', 'Chance of a clean run that a safe tempo keeps, 0 to 1', { default: 0.8 })
    .action((files: string[], options: CheckOptions) => {
      run = async () => (await import('./check')).check(files, options);
    });

  player(cli.command('solve [...files]', 'Find a fingering and show it'))
    .option('--format <format>', 'text or json', { default: 'text' })
    .option('--best <count>', 'Show so many of the best fingerings of each passage, not only the best')
    .option('--page <file>', 'Write the fingerboard and the fingering as one HTML page')
    .option('--chance <chance>', 'Chance of a clean run that a safe tempo keeps, 0 to 1', { default: 0.8 })
    .action((files: string[], options: SolveOptions) => {
      run = async () => (await import('./solve')).solve(files, options);
    });

  player(cli.command('sheet [...files]', 'Print passages on a sheet for a student'))
    .option('--out <file>', 'Where to write it: sheet.pdf, or a name ending in .html for a web page')
    .option('--paper <paper>', 'A4 or Letter', { default: 'A4' })
    .option('--title <title>', 'Heading of the sheet')
    .option('--remark <text>', 'A line for the student under the heading; may be given again')
    .option('--diagrams <notes>', 'Small fingerboards for: none, harmonics, or notes by bar and beat, as in 3:2,4:1', {
      default: 'harmonics',
    })
    .option('--force', 'Write over a file that is there already')
    .action((files: string[], options: SheetOptions) => {
      run = async () => (await import('./sheet')).sheet(files, options);
    });

  player(cli.command('exercises <file>', 'Practice material from the passages of a file, as passage text to edit'))
    .option('--passage <name>', 'Only the passage of this name')
    .option('--kinds <kinds>', 'Only these kinds, as in hard-spots,tempo-ladder; otherwise all that the passage has material for')
    .option('-o, --out <file>', 'Where to write it; otherwise to standard output')
    .option('--chance <chance>', 'Chance of a clean run that a safe tempo keeps, 0 to 1', { default: 0.8 })
    .option('--force', 'Write over a file that is there already')
    .action((file: string, options: ExercisesOptions) => {
      run = async () => (await import('./exercises')).exercises(file, options);
    });

  player(cli.command('convert [...files]', 'Scores to passage text, passages to scores and sound'))
    .option('--to <format>', 'What to make: passage (of scores); musicxml (the default), midi, wav (of passages)')
    .option('--out <file>', 'Where to write it; otherwise beside the file, or to standard output')
    .option('--part <part>', 'The part of a score: its id, its name, or its number from 1')
    .option('--force', 'Write over a file that is there already')
    .action((files: string[], options: ConvertOptions) => {
      run = async () => (await import('./convert')).convert(files, options);
    });

  player(cli.command('diff <before> <after>', 'Tell in words how the fingering changed between two versions'))
    .option('--chance <chance>', 'Chance of a clean run that a safe tempo keeps, 0 to 1', { default: 0.8 })
    .action((before: string, after: string, options: PlayerOptions) => {
      run = async () => (await import('./diff')).diff(before, after, options);
    });

  cli.command('explain <code>', 'What a finding means and what to do about it').action((code: string) => {
    run = async () => (await import('./rule-page')).explain(code);
  });

  cli
    .command('serve', 'Run the language server for an editor')
    .option('--stdio', 'Speak over standard input and output')
    .option('--node-ipc', 'Speak over the channel of a Node process')
    .option('--socket <port>', 'Speak over a socket')
    .action((options: object) => {
      run = async () => (await import('./serve')).serve(options);
    });

  cli.help();
  cli.version(version);
  cli.parse(['node', 'passagework', ...argv.map((word) => (word === '-' ? STANDARD_INPUT : word))], { run: false });
  if (cli.options.help || cli.options.version) return EXIT.clean;
  if (!cli.matchedCommand) {
    if (cli.args.length > 0) throw new CannotRun(`There is no command ${cli.args[0]}. Commands: ${names(cli)}.`);
    cli.outputHelp();
    return EXIT.cannotRun;
  }
  try {
    await cli.runMatchedCommand();
  } catch (error) {
    // Nothing has been done yet but read the options, so it is they that are wrong.
    throw new CannotRun(`${error instanceof Error ? error.message : error}. See passagework ${cli.matchedCommandName} --help.`);
  }
  return run ? run() : EXIT.cannotRun;
}

function names(cli: ReturnType<typeof cac>): string {
  return cli.commands.map((command) => command.name).join(', ');
}

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
});

main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    if (error instanceof CannotRun) console.error(`passagework: ${error.message}`);
    else
      console.error('passagework: this is a fault of ours, not of your files; please report it with the lines below.\n', error);
    process.exitCode = EXIT.cannotRun;
  },
);
