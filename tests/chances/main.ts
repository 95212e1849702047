import { rows, TEMPOS } from './table';

/** Prints what the model says of scales, double stops and harmonics: see bands.test.ts for what it has to say. */

const percent = (share: number) => `${(share * 100).toFixed(share > 0.995 && share < 1 ? 1 : 0)} %`.padStart(7);

console.log(
  `${'chance of a clean run at 1/4 ='.padEnd(50)}${TEMPOS.map((bpm) => String(bpm).padStart(7)).join('')}  fastest, 4 in 5 clean`,
);
for (const { family, level, exercise, value, clean, ceiling } of rows()) {
  const name = `${family.padEnd(7)} ${level.padEnd(13)} ${exercise.padEnd(22)} ${value.padEnd(4)}`;
  const fastest = ceiling ? (ceiling.limit === 'none' ? 'no limit' : `${ceiling.bpm} (${ceiling.limit})`) : 'none slow enough';
  console.log(`${name.padEnd(50)}${TEMPOS.map((bpm) => percent(clean[bpm]!)).join('')}  ${fastest}`);
}
