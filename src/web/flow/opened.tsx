import { type ReactNode, useState } from 'react';

interface Wish {
  readonly title: string;
  readonly rows: readonly { readonly name: string; readonly value: string; readonly from: string }[];
  /** How far it holds. */
  readonly holds: string;
  readonly children: ReactNode;
}

/** Numbers opened up, as those of a snag are: what went in and where that comes from, how far it holds, the formulas. */
export function Opened({ title, rows, holds, children }: Wish): ReactNode {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className="opened" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{title}</summary>
      {isOpen ? (
        <>
          {rows.length === 0 ? null : (
            <table className="sheet" aria-label="What went in">
              <tbody>
                {rows.map(({ name, value, from }) => (
                  <tr key={`${name} ${value}`}>
                    <td>
                      {name}
                      <span className="small soft opened-from">{from}</span>
                    </td>
                    <td className="num">{value}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          <p className="small">{`Holds for: ${holds}`}</p>
          {children}
        </>
      ) : null}
    </details>
  );
}
