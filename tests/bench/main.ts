import { commandStart } from './command-start';
import { doubleStopsBench } from './double-stops';
import { type Bench, reached } from './figure';
import { solverBench } from './solver';
import { workspaceBench } from './workspace';

/** `npm run bench`: every figure beside its goal; fails when one is missed. */
const BENCHES: readonly Bench[] = [solverBench, doubleStopsBench, workspaceBench, commandStart];

let missed = 0;
for (const bench of BENCHES) {
  for (const figure of await bench()) {
    const { what, ratio, goal, measured } = figure;
    const wanted = 'most' in goal ? `at most ${goal.most.toPrecision(3)}` : `at least ${goal.least.toPrecision(3)}`;
    console.log(
      `${reached(figure) ? 'reached' : 'MISSED '}  ${ratio.toPrecision(3).padStart(8)}  ${wanted.padEnd(16)}  ${what} (${measured})`,
    );
    if (!reached(figure)) missed++;
  }
}
if (missed > 0) {
  console.log(`${missed} ${missed === 1 ? 'goal' : 'goals'} missed.`);
  process.exitCode = 1;
}
