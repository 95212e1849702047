import { hear } from '../../server/listening/listen';
import { isAligned, isJudged, isRight, listened, type Pair, scoreOf } from './score';
import { shareBar, type TrueTake, takeOf } from './take';

/**
 * `npm run listening`: what listening gets right of synthetic takes with known faults, 300 of them from seeds that nothing was built with.
 * `npm run listening -- 1 40` takes seeds 1 to 40 instead; with `WRONG=1` every note that it got wrong is listed.
 */
const [from = 100_001, to = 100_300] = process.argv.slice(2).map(Number);
const pairs: Pair[] = [];
let [worked, seconds, refused, another, others] = [0, 0, 0, 0, 0];
let before: TrueTake | undefined;
for (let seed = from; seed <= to; seed++) {
  const take = takeOf(seed);
  const began = process.cpuUsage();
  const { frames, listening, pairs: own } = await listened(take);
  const { user, system } = process.cpuUsage(began);
  worked += (user + system) / 1e6;
  seconds += listening.seconds;
  if (listening.refused) refused++;
  pairs.push(...own);
  // The passage of the take before, where it has no bar in common.
  if (before && !shareBar(before, take)) {
    others++;
    if (hear(frames, before.scene).refused) another++;
  }
  before = take;
  if (process.env.WRONG) tell(own, listening.a4);
}
console.log(
  `${to - from + 1} takes, ${Math.round(seconds)} s, worked ${(worked / seconds).toFixed(3)} of their length, ${refused} refused; of ${others} of another passage ${another} refused`,
);
for (const method of ['string', 'partials'] as const)
  console.table({ [method]: rounded(scoreOf(pairs.filter(({ take }) => take.how.method === method))) });
console.table({ all: rounded(scoreOf(pairs)) });

function rounded(score: object): Record<string, number> {
  return Object.fromEntries(Object.entries(score).map(([name, value]) => [name, Math.round(value * 1000) / 1000]));
}

function tell(own: readonly Pair[], a4: number): void {
  for (const pair of own) {
    const { played, heard, take } = pair;
    const good = isJudged(pair) && isRight(pair) && (played.hz === 0 || isAligned(pair));
    if (good) continue;
    const { scene } = played;
    console.log(
      `${take.seed} ${take.how.method}${take.how.room ? ' room' : ''} ev${played.event}.${played.note} ${scene.sounding} ${scene.kind} ${scene.partial} at ${(played.at + played.delay).toFixed(2)}+${played.seconds.toFixed(2)} ${played.fault} ${played.partial} ${played.cents.toFixed(0)}c -> ${heard ? `${heard.verdict} ${heard.onset.toFixed(2)} ${heard.instead ? `${heard.instead.source}${heard.instead.partial ?? ''}` : ''} ${heard.late ?? ''} sure ${heard.sure.toFixed(2)}` : 'nothing'} (A4 ${a4.toFixed(1)}, true ${(440 * 2 ** (take.performance.tuning / 1200)).toFixed(1)})`,
    );
  }
}
