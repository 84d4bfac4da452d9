import { type ReactNode, useEffect, useState } from 'react';
import type { BoxRow, Catalogue } from '#car';
import type { Shop } from '#shelf';
import { judgeAgain, say, sayFault, useStanding, watchShop, word } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { whoIsIt } from '../bench/who.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { calls } from '../server/calls.ts';
import { BoxCount } from './box-count.tsx';
import { OwnCatalogue } from './own-catalogue.tsx';

/** What the shop has for all its cars: the box on the shelf, and its own rows of the catalogue. */
export function ShopPaper(): ReactNode {
  const judged = useStanding();
  const [shop, setShop] = useState<Shop | null>(null);
  const [shown, setShown] = useState<'box' | 'catalogue'>('box');
  useEffect(() => {
    const load = (): void => {
      calls.shop().then(setShop, sayFault);
    };
    load();
    return watchShop(load);
  }, []);
  if (judged === null || shop === null) return <p className="soft">Looking at the shelf</p>;
  const keep = (change: ShopChange, done: string): Promise<boolean> => kept(shop, change, done, setShop);
  return (
    <article className="paper">
      <PaperHead below="For all cars of this shop. An order is what is needed, less what lies here and in the car’s own box.">
        The shop
      </PaperHead>
      <div className="keys" role="group" aria-label="Box or catalogue">
        <Key aria-pressed={shown === 'box'} onClick={() => setShown('box')}>
          {`Box: ${shop.box.length}`}
        </Key>
        <Key aria-pressed={shown === 'catalogue'} onClick={() => setShown('catalogue')}>
          Own catalogue
        </Key>
        <Key weight="bare" onClick={() => open({ kind: 'buy' })}>
          The order
        </Key>
      </div>
      {shown === 'box' ? (
        <BoxCount
          had={shop.box}
          order={judged.order}
          file="shop-box.csv"
          onKeep={(box) => keep({ box }, 'The shop’s box counted')}
        />
      ) : (
        <OwnCatalogue catalogue={shop.catalogue} onKeep={(catalogue, done) => keep({ catalogue }, done)} />
      )}
    </article>
  );
}

type ShopChange = { readonly box: readonly BoxRow[] } | { readonly catalogue: Catalogue };

/** Keeps a change to the shop; somebody else's in between is shown, not written over. */
async function kept(shop: Shop, change: ShopChange, done: string, set: (now: Shop) => void): Promise<boolean> {
  const who = await whoIsIt();
  if (who === null) return false;
  try {
    const answer = await calls.keepShop({ base: shop.revision, who, ...change });
    set(answer.now);
    judgeAgain();
    if (answer.kind === 'kept') say(done);
    else
      word.set({
        isFault: true,
        text: 'Not kept: the shop was changed on another screen at the same moment. What you put in still stands here; keep it again.',
      });
    return answer.kind === 'kept';
  } catch (fault) {
    sayFault(fault);
    return false;
  }
}
