import type { Exercise } from './exercise';
import type { Source } from './source';

/** One kind of exercise that can be made of a solved passage. */
export interface PracticeKind {
  /** As the command line names it. */
  readonly name: string;
  readonly label: string;
  /** What the student does, in one line. */
  readonly meaning: string;
  /** What a passage must have for it: «it needs …». */
  readonly needs: string;
  /** The rule that would remark on every note of it, since what it remarks on is what is practised. */
  readonly quiets?: string;
  /** None where the passage has nothing to practise in this way. */
  exercises(source: Source): readonly Exercise[];
}
