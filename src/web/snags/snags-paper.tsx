import { type ReactNode, useMemo, useState } from 'react';
import { byCause, cautionsFor } from '#snags';
import { useCar, useStanding } from '../bench/bench.ts';
import { Cautions } from '../frame/cautions.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { CauseList } from './cause-list.tsx';
import { counted } from './counted.ts';
import { openSnags } from './open-snags.ts';
import { QuestionKeys, type Shown, snagsShown } from './question-keys.tsx';
import { WorkedOutBehind } from './worked-out-behind.tsx';

/** Every open point by its cause, worst first; by question, or those that somebody accepted. */
export function SnagsPaper(): ReactNode {
  const car = useCar();
  const all = useStanding()?.snags;
  const [shown, setShown] = useState<Shown>('all');
  const still = useMemo(() => openSnags(all ?? []), [all]);
  const accepted = useMemo(
    () => (all ?? []).filter((snag) => snag.accepted !== undefined && !still.includes(snag)),
    [all, still],
  );
  const causes = useMemo(() => byCause(snagsShown({ still, accepted, shown })), [still, accepted, shown]);
  if (all === undefined) return <p className="soft">The taken ways are being judged.</p>;
  return (
    <article className="paper">
      <PaperHead below="Worst first; what else comes of a cause is folded beneath it. Stop: a limit is broken as drawn. Fix: broken only at worst case, or relaxed near a port.">
        {`${counted(still.length, 'snag')} open, ${counted(byCause(still).length, 'cause')}`}
      </PaperHead>
      <WorkedOutBehind isLong />
      <QuestionKeys still={still} accepted={accepted} shown={shown} onShown={setShown} />
      <CauseList causes={causes} />
      {car === null ? null : <Cautions words={cautionsFor(car)} />}
    </article>
  );
}
