import { Command, Option } from 'commander';
import { version } from '../../package.json';

/** Runs what the command line asks for; its number is the exit code. */
export type Run = () => Promise<number>;

/**
 * Every command and option, as data: the command line reads it, and help, completions, man page and reference are made of
 * it. Each command's own code is loaded only when it is asked for, so a start costs what it uses.
 *
 * @param chosen is handed what to run, once the words of the command line are read
 */
export function createProgram(chosen: (run: Run) => void = () => {}): Command {
  const program = new Command('passagework')
    .description('How to play a passage on violin, viola or cello, and what is risky about it')
    .usage('COMMAND [FILE...]')
    .helpCommand(false)
    .version(version, '-v, --version', 'Show the version');

  /** A command of so many words; `run` gets them, and its options last. */
  const command = (usage: string, description: string, run: (...given: never[]) => Promise<number>) =>
    program
      .command(usage)
      .description(description)
      .version(version, '-v, --version', 'Show the version')
      .action((...given: unknown[]) => {
        // The command itself comes last of all, and nobody needs it.
        chosen(() => run(...(given.slice(0, -1) as never[])));
      });

  const check = command(
    'check [files...]',
    'Find what cannot be played, and what is risky',
    async (files: string[], options: never) => (await import('./check')).runCheck(files, options),
  );
  check
    .option('--format <format>', 'text, json, sarif, junit (XML of test runners) or github (workflow commands)', 'text')
    .option('-o, --output-file <file>', 'Write the result to this file instead of showing it')
    .option('--fix', 'Apply the fixes that keep every note, duration and mark as meant')
    .option('--unsafe-fixes', 'Apply the likely fixes too, which are guesses: look at what they changed')
    .option('--diff', 'Show what --fix, or --unsafe-fixes, would change instead of changing it')
    .option('--quiet', 'Show errors only')
    .option('--max-warnings <count>', 'Fail when there are more warnings than this')
    .option('--stdin-filepath <path>', 'What to call standard input, and where to look for its players and its passagework.json')
    .option('--changed', 'Only what git finds changed since the last commit, or not yet committed')
    .option('--since <commit>', 'Only what git finds changed since this commit')
    .option('--cache', 'Check only what has changed since the last time')
    .option('--cache-file <file>', 'Where the cache is kept; otherwise in .passagework-cache.json')
    .option('--watch', 'Check again whenever a file changes')
    .option('--baseline <file>', 'Leave out the findings recorded in this file')
    .option('--write-baseline <file>', 'Record all present findings in this file')
    .option('--force', 'Overwrite an existing file')
    .option('--hands <hands>', 'Tell which of these hands can play each passage, and how fast: small,medium,large')
    .option('--players <files>', 'Tell which of these players can play each passage, and how fast: ines.player,mattis.player');
  player(check, 'fails', 'chance');

  const format = command(
    'format [files...]',
    'Tidy the spacing of passages; words and line breaks stay as they are',
    async (files: string[], options: never) => (await import('./format')).runFormat(files, options),
  );
  format
    .option('--check', 'Change nothing; fail if anything would change')
    .option('--diff', 'Show what would be changed instead of changing it')
    .option('--stdin-filepath <path>', 'What to call standard input');

  const solve = command('solve [files...]', 'Find a fingering and show it', async (files: string[], options: never) =>
    (await import('./solve')).runSolve(files, options),
  );
  solve
    .option('--format <format>', 'text or json', 'text')
    .option('-o, --output-file <file>', 'Write the result to this file instead of showing it')
    .option('--stdin-filepath <path>', 'What to call standard input, and where to look for its players and its passagework.json')
    .option('--best <count>', 'Show the N best fingerings of each passage, not only the best')
    .option('--page <file>', 'Write the fingerboard and the fingering as one HTML page')
    .option('--force', 'Overwrite an existing file');
  player(solve, 'fails', 'chance');

  const sheet = command('sheet [files...]', 'Print passages on a sheet for a student', async (files: string[], options: never) =>
    (await import('./sheet')).runSheet(files, options),
  );
  sheet
    .option('-o, --out <file>', 'Where to write it: sheet.pdf, or a name ending in .html for a web page')
    .option('--paper <paper>', 'A4 or Letter', 'A4')
    .option('--title <title>', 'Heading of the sheet')
    .option('--remark <text>', 'A line for the student under the heading; may be repeated', gathered)
    .option(
      '--diagrams <notes>',
      'Small fingerboards for: none, harmonics (each node and each kind once), or notes by bar and beat, as in 3:2,4:1',
      'harmonics',
    )
    .option('--fingers <which>', 'Which fingerings to print: changes, where the hand does something new, or all', 'changes')
    .option('--force', 'Overwrite an existing file');
  player(sheet);

  const exercises = command(
    'exercises <file>',
    'Make exercises from the passages of a file, as passage text to edit',
    async (file: string, options: never) => (await import('./exercises')).runExercises(file, options),
  );
  exercises
    .option('--passage <name>', 'Only the passage of this name')
    .option(
      '--kinds <kinds>',
      'Only these kinds, for example hard-spots,tempo-ladder; otherwise every kind that suits the passage',
    )
    .option('-o, --out <file>', 'Where to write it; otherwise to standard output')
    .option('--force', 'Overwrite an existing file');
  player(exercises, 'chance');

  const listen = command(
    'listen <file> <recording>',
    'Listen to a recording of a passage: which notes spoke, when, and how well in tune',
    async (file: string, recording: string, options: never) => (await import('./listen')).runListen(file, recording, options),
  );
  listen
    .option('--passage <name>', 'The passage that is played, if the file has several')
    .option('--format <format>', 'text or json', 'text')
    .option('-o, --output-file <file>', 'Write the result to this file instead of showing it')
    .option('--page <file>', 'Also write an HTML page with the pitch of every note')
    .option('--exercises <file>', 'Write exercises of what failed, as passage text to edit')
    .option('--log', 'Add the attempts it is sure of to the player file, once per recording')
    .option('--unlog', 'Take back what --log counted of this recording')
    .option('--diff', 'Show what --log or --unlog would change instead of changing it')
    .option('--force', 'Overwrite an existing file');
  player(listen);

  const convert = command(
    'convert [files...]',
    'Convert scores (MusicXML, MIDI, ABC) to passage text, and passages to scores and sound',
    async (files: string[], options: never) => (await import('./convert')).runConvert(files, options),
  );
  convert
    .option(
      '--to <format>',
      'What to make: passage (from a score), or musicxml, midi or wav (from a passage); otherwise what --out ends in, or musicxml',
    )
    .option('-o, --out <file>', 'Where to write it; otherwise beside the file, or to standard output')
    .option('--part <part>', 'The part of a score: its number from 1, or its name')
    .option(
      '--tune <number>',
      'The tune of an ABC file: the number after its X:, or all, each a file of its own; otherwise the first',
    )
    .option('--divisi <voice>', 'Of voices that share a staff: upper, lower, or both as double stops; otherwise both')
    .option('--losses', 'List bar by bar what could not be carried over, not only a summary')
    .option('--force', 'Overwrite an existing file');
  player(convert);

  const diff = command(
    'diff <before> <after>',
    'Describe in words how the fingering changed between two versions',
    async (before: string, after: string, options: never) => (await import('./diff')).runDiff(before, after, options),
  );
  diff
    .option('--format <format>', 'text or json', 'text')
    .option('-o, --output-file <file>', 'Write the result to this file instead of showing it')
    .option('--force', 'Overwrite an existing file');
  player(diff, 'chance');

  command('explain <code>', 'What a finding means and what to do about it', async (code: string) =>
    (await import('./rule-page')).runExplain(code),
  );

  command('completions <shell>', 'Print the completion script for a shell: bash, zsh or fish', async (shell: string) =>
    (await import('./completions')).runCompletions(shell),
  );

  command('manual', 'The manual page, as man reads it: passagework manual | man -l -', async () =>
    (await import('./manual')).runManual(),
  );

  command('serve', 'Run the language server for an editor', async (options: never) => (await import('./serve')).runServe(options))
    .option('--stdio', 'Speak over standard input and output')
    .option('--node-ipc', 'Speak over the channel of a Node process')
    .option('--socket <port>', 'Speak over the port of this machine on which the editor listens')
    .option('--pipe <name>', 'Speak over the pipe on which the editor listens')
    // Editors add words of their own, such as the id of the process that asks.
    .allowUnknownOption()
    .allowExcessArguments();

  for (const each of program.commands) each.addOption(new Option('--no-color', 'Never colour what is shown'));
  return program;
}

/** What every command takes that fingers passages: who plays, and where asked, what fails and how safe a tempo is. */
function player(command: Command, ...more: readonly ('fails' | 'chance')[]): void {
  command
    .option('--hand <hand>', 'Hand instead of the file\'s: small, medium, large, or measured reaches: "1-2 48, 1-4 98"')
    .option('--player <file>', "Whose hand, instrument and attempts count instead of the file's: a .player file")
    .option('--tempo <tempo>', 'Tempo instead of the file\'s: "1/4 = 96", or beats a minute');
  if (more.includes('chance'))
    command.option('--chance <chance>', 'Chance of a clean run that a safe tempo keeps, 0 to 1 (default: 0.8)');
  if (more.includes('fails'))
    command.option('--fail-on <severity>', 'Lowest severity that fails: error, warning, information, hint, never', 'error');
}

function gathered(text: string, earlier: readonly string[] = []): readonly string[] {
  return [...earlier, text];
}
