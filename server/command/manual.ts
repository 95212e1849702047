import type { Command } from 'commander';
import { version } from '../../package.json';
import { EXIT } from './cannot-run';
import { createProgram } from './program';

/** `passagework manual`: the manual page, as `man` reads it. */
export function runManual(): number {
  console.log(manualPage(createProgram()));
  return EXIT.clean;
}

/** In the macros of man(7), so every system's `man` can read it. The same text for the same program. */
function manualPage(program: Command): string {
  return [
    `.TH PASSAGEWORK 1 "" "passagework ${version}" "User Commands"`,
    '.SH NAME',
    `passagework \\- ${roff(program.description())}`,
    '.SH SYNOPSIS',
    ...program.commands.flatMap((command) => [`.B passagework ${command.name()}`, roff(command.usage()), '.br']),
    '.SH DESCRIPTION',
    roff(ABOUT),
    '.SH COMMANDS',
    ...program.commands.flatMap(section),
    '.SH EXIT STATUS',
    ...STATUS.flatMap(([code, meaning]) => ['.TP', `.B ${code}`, roff(meaning)]),
    '.SH FILES',
    '.TP',
    '.B passagework.json',
    roff('What a collection agrees on: rules, hand, instrument, what is left out. It holds for its folder and all below.'),
  ].join('\n');
}

const ABOUT =
  'Without files, the current folder is taken; of a folder, every passage in it; - is standard input. Large stretches are reported, and pain means stop: rest, and ask a teacher or a clinician.';

const STATUS = [
  [EXIT.clean, 'Nothing that fails was found.'],
  [EXIT.findings, 'Something was found: findings at or above --fail-on, more warnings than --max-warnings, a difference.'],
  [EXIT.cannotRun, 'Something could not be done; standard error says what.'],
] as const;

function section(command: Command): readonly string[] {
  const options = command.createHelp().visibleOptions(command);
  return [
    `.SS ${command.name()}`,
    `${roff(command.description())}.`,
    ...options.flatMap(({ flags, description, defaultValue }) => [
      '.TP',
      `.B ${roff(flags)}`,
      roff(`${description}${typeof defaultValue === 'string' ? ` (otherwise ${defaultValue})` : ''}.`),
    ]),
  ];
}

/**
 * Text that roff shows as it stands: a backslash, a hyphen and a dot at the start of a line mean something to it, and a sign
 * beyond ASCII is written by its number, as not every `man` is told the encoding (groff_char(7)).
 */
function roff(text: string): string {
  return text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replace(/[^\0-\x7f]/gu, (sign) => `\\[u${sign.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}]`)
    .replace(/^[.']/, '\\&$&');
}
