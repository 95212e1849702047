import { type Command, CommanderError } from 'commander';
import { CannotRun, EXIT } from './cannot-run';
import { createProgram, type Run } from './program';
import { complain } from './say';

/** The command line: its words are read, then what they ask for is run. */
async function main(argv: readonly string[]): Promise<number> {
  let run: Run | undefined;
  const program = createProgram((asked) => {
    run = asked;
  });
  for (const each of [program, ...program.commands]) {
    each.exitOverride().configureOutput({ writeErr: () => {} });
  }
  if (argv.length === 0) {
    program.outputHelp();
    return EXIT.cannotRun;
  }
  try {
    await program.parseAsync(withoutHelp(argv, program), { from: 'user' });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    if (error.exitCode === 0) return EXIT.clean;
    throw new CannotRun(misread(error, program, argv));
  }
  try {
    return run ? await run() : EXIT.cannotRun;
  } catch (error) {
    throw error instanceof CannotRun ? new CannotRun(asTyped(error.message, program, argv)) : error;
  }
}

/** `help check` is `check --help`. */
function withoutHelp(argv: readonly string[], program: Command): readonly string[] {
  const [word, about] = argv;
  if (word !== 'help') return argv;
  if (about === undefined) return ['--help'];
  return program.commands.some((each) => each.name() === about) ? [about, '--help'] : [about];
}

/** Names an option as it stands on the command line, where that is the short way. */
function asTyped(message: string, program: Command, argv: readonly string[]): string {
  const options = program.commands.find((each) => each.name() === argv[0])?.options ?? [];
  return options.reduce((said, { short, long }) => {
    const typed = short && long && argv.some((word) => word.startsWith(short) && !word.startsWith('--'));
    return typed ? said.replaceAll(long, short) : said;
  }, message);
}

/** What is wrong with the words of the command line, and where to look. */
function misread({ code, message }: CommanderError, program: Command, argv: readonly string[]): string {
  const [said = '', near = ''] = message.replace(/^error: /, '').split('\n');
  const meant = near.replace(/^\(|\)$/g, '');
  const known = program.commands.some((each) => each.name() === argv[0]);
  if (code === 'commander.unknownCommand') {
    const names = program.commands.map((each) => each.name()).join(', ');
    return `There is no command ${argv[argv[0] === 'help' ? 1 : 0]}. ${meant || `Commands: ${names}.`}`;
  }
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}. ${meant && `${meant} `}See passagework ${known ? `${argv[0]} ` : ''}--help.`;
}

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
});

main(process.argv.slice(2))
  .catch((error: unknown) => {
    if (error instanceof CannotRun) complain(error.message);
    else
      console.error('passagework: internal error; your files are not the cause. Please report it with the lines below.\n', error);
    return EXIT.cannotRun;
  })
  .then((code) => {
    // Once all that was said has gone out; otherwise Node first waits for V8 to tidy up memory that nobody needs any more.
    process.stdout.write('', () => process.stderr.write('', () => process.exit(code)));
  });
