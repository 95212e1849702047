/** As much of it as the moving picture needs; the package brings no types. */
declare module 'upng-js' {
  interface Image {
    readonly width: number;
    readonly height: number;
  }
  const UPNG: {
    decode(file: ArrayBuffer | Uint8Array): Image;
    /** One RGBA picture for each frame. */
    toRGBA8(image: Image): ArrayBuffer[];
    /** `colours` 0 loses nothing; `delays` in ms, one for each frame. */
    encode(frames: ArrayBuffer[], width: number, height: number, colours: number, delays?: number[]): ArrayBuffer;
  };
  export default UPNG;
}
