import { commandStart } from './command-start';
import { type Curve, writeReport } from './curves';
import { doubleStopsBench } from './double-stops';
import { type Bench, type Figure, reached } from './figure';
import { serverBench } from './server';
import { solverBench } from './solver';
import { wholeCommand } from './whole-command';
import { workspaceBench } from './workspace';

const curves: Curve[] = [];
const BENCHES: Readonly<Record<string, Bench>> = {
  solver: solverBench,
  'double-stops': doubleStopsBench,
  workspace: workspaceBench,
  server: () => serverBench(curves),
  start: commandStart,
  command: () => wholeCommand(curves),
};

/**
 * `npm run bench`: every figure beside its goal; fails when one is missed. `-- server` for one of them. A page with all of it and the
 * curves is left in `out/bench.html`.
 */
const only = process.argv[2];
const figures: Figure[] = [];

let missed = 0;
for (const [name, bench] of Object.entries(BENCHES)) {
  if (only !== undefined && only !== name) continue;
  for (const figure of await bench()) {
    figures.push(figure);
    const { what, ratio, goal, measured } = figure;
    const wanted = 'most' in goal ? `at most ${goal.most.toPrecision(3)}` : `at least ${goal.least.toPrecision(3)}`;
    console.log(
      `${reached(figure) ? 'reached' : 'MISSED '}  ${ratio.toPrecision(3).padStart(8)}  ${wanted.padEnd(16)}  ${what} (${measured})`,
    );
    if (!reached(figure)) missed++;
  }
}
writeReport('out/bench.html', figures, curves);
if (missed > 0) {
  console.log(`${missed} ${missed === 1 ? 'goal' : 'goals'} missed.`);
  process.exitCode = 1;
}
