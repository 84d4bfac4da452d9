import { type ReactNode, type RefObject, useEffect } from 'react';

interface Wish {
  /** How often the form was sent. */
  readonly asked: number;
  readonly fault: string | null;
  readonly within: RefObject<HTMLElement | null>;
}

/** What is missing, beside the key that was pressed; the first field that is marked gets the focus. */
export function FirstFault({ asked, fault, within }: Wish): ReactNode {
  useEffect(() => {
    if (asked > 0) within.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }, [asked, within]);
  if (asked === 0 || fault === null) return null;
  return (
    <p className="warn" role="alert">
      ▲ {fault}
    </p>
  );
}
