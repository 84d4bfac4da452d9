import { type ReactNode, useState } from 'react';
import { type Order, type OrderRow, orderCsv } from '#stock';
import { formatNumber } from '#units';
import { useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { counted } from '../snags/counted.ts';
import { BoxList } from './box-list.tsx';
import { CutPlanList } from './cut-plan.tsx';
import { useLengths } from '../tape/lengths.ts';
import { amount, savedText } from './amount.ts';
import './buy.css';

type Shown = 'order' | 'box' | 'cuts';

/** What to buy, what lies in the box, what is cut from what. */
export function BuyPaper(): ReactNode {
  const judged = useStanding();
  const [shown, setShown] = useState<Shown>('order');
  if (judged === null) return <p className="soft">The order is being counted.</p>;
  const { order } = judged;
  const tabs: readonly (readonly [Shown, string])[] = [
    ['order', 'Order'],
    ['box', 'Box'],
    ['cuts', 'Cut plan'],
  ];
  return (
    <article className="paper">
      <PaperHead below="For the ways taken: needed, less the box, with spares.">What do I buy?</PaperHead>
      <div className="keys" role="group" aria-label="Which list">
        {tabs.map(([key, words]) => (
          <Key key={key} aria-pressed={shown === key} onClick={() => setShown(key)}>
            {words}
          </Key>
        ))}
      </div>
      <div className="keys">
        <Key weight="bare" onClick={() => open({ kind: 'compare', id: '1..now' })}>
          What a change cost
        </Key>
        <Key weight="bare" onClick={() => open({ kind: 'shop' })}>
          The shop
        </Key>
      </div>
      {order.withoutWay.length === 0 ? null : (
        <p className="warn warn-fix">{`◆ Nothing in here for ${order.withoutWay.join(', ')}: no way is taken for them yet.`}</p>
      )}
      {shown === 'order' ? (
        <OrderList order={order} />
      ) : shown === 'box' ? (
        <BoxList order={order} />
      ) : (
        <CutPlanList order={order} />
      )}
    </article>
  );
}

function OrderList({ order }: { readonly order: Order }): ReactNode {
  const { text } = useLengths();
  const built = order.rows.filter((row) => row.spare !== true && row.toBuy > 0);
  const spares = order.rows.filter((row) => row.spare === true && row.toBuy > 0);
  const have = order.rows.filter((row) => row.toBuy === 0);
  return (
    <>
      <div className="keys">
        <Key onClick={() => savedText('order.csv', orderCsv(order))}>Save as CSV</Key>
        <Key onClick={() => print()}>Print</Key>
      </div>
      <Rows title={`To buy: ${counted(built.length, 'row')}`} rows={built} />
      {spares.length === 0 ? null : <Rows title={`Spares to carry: ${counted(spares.length, 'row')}`} rows={spares} />}
      {have.length === 0 ? null : <Rows title={`From the box: ${counted(have.length, 'row')}`} rows={have} />}
      {order.cost.map((sum) => (
        <p
          key={sum.currency}
        >{`${formatNumber(sum.sum, 2)} ${sum.currency}, without ${counted(order.unpriced, 'row')} that have no price`}</p>
      ))}
      <ul className="small">
        {order.remarks.map((remark) => (
          <li key={remark}>{text(remark)}</li>
        ))}
      </ul>
    </>
  );
}

function Rows({ title, rows }: { readonly title: string; readonly rows: readonly OrderRow[] }): ReactNode {
  const lengths = useLengths();
  return (
    <section>
      <h2>{title}</h2>
      <table className="sheet order">
        <thead>
          <tr>
            <th scope="col" className="num">
              Buy
            </th>
            <th scope="col">What</th>
            <th scope="col" className="num">
              Need
            </th>
            <th scope="col" className="num">
              Box
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={`${row.id} ${row.spare === true}`}>
              <td className="num buy">{amount(row.toBuy, row.unit, lengths)}</td>
              <td>
                {lengths.soldAs(row.name)}
                <span className="small soft order-where">
                  {row.partNumber === undefined
                    ? row.id
                    : `${row.partNumber}${row.supplier === undefined ? '' : `, ${row.supplier}`}`}
                </span>
                <span className="small soft order-where">{lengths.cutText(row.usedIn.join(', '))}</span>
                {row.measure ? <span className="small order-where">measure the part in your hand</span> : null}
              </td>
              <td className="num">{amount(row.qty, row.unit, lengths)}</td>
              <td className="num">{row.inBox === 0 ? '–' : amount(row.inBox, row.unit, lengths)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
