/** What is used of the package, which brings no types of its own. */
declare module 'svg-to-pdfkit' {
  /** Draws an SVG text with its top left corner at (x, y), points. */
  export default function drawSvg(
    document: PDFKit.PDFDocument,
    svg: string,
    x: number,
    y: number,
    options: {
      readonly width: number;
      readonly height: number;
      /** A length without a unit is points. */
      readonly assumePt: boolean;
      /** The registered font for a family. */
      readonly fontCallback: (family: string, bold: boolean, italic: boolean) => string;
      readonly warningCallback: (warning: string) => void;
    },
  ): void;
}
