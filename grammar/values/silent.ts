import type { IParserErrorMessageProvider } from 'chevrotain';

const said = () => '';

/** Where a value stops to fit is all that is asked of the parser; what is said of it is ours. */
export const SILENT: IParserErrorMessageProvider = {
  buildMismatchTokenMessage: said,
  buildNotAllInputParsedMessage: said,
  buildNoViableAltMessage: said,
  buildEarlyExitMessage: said,
};
