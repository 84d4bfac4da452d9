import type { ReactNode } from 'react';

interface Wish {
  readonly label: string;
  readonly checked: boolean;
  readonly onCheck: (checked: boolean) => void;
}

/** A box to tick, 44 px high with its words. */
export function Check({ label, checked, onCheck }: Wish): ReactNode {
  return (
    <label className="check">
      <input type="checkbox" checked={checked} onChange={(event) => onCheck(event.currentTarget.checked)} />
      <span>{label}</span>
    </label>
  );
}
