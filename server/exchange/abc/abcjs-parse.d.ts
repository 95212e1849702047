/** What is used of the package, whose own types know the whole of it only. Everything it reads is optional: it makes no promises. */
declare module 'abcjs/src/parse/abc_parse.js' {
  export default class Parse {
    /** Reads one tune. */
    parse(text: string, switches: object): void;
    getTune(): import('./tune').Tune;
    getWarningObjects(): readonly import('./tune').Warning[] | undefined;
  }
}
