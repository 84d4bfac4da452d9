import type { ReactNode } from 'react';

/** Title of a paper; focus comes here when the paper is opened. */
export function PaperHead({
  children,
  below,
}: {
  readonly children: ReactNode;
  readonly below?: ReactNode;
}): ReactNode {
  return (
    <header>
      <h1 className="paper-head big" tabIndex={-1}>
        {children}
      </h1>
      {below === undefined ? null : <p className="soft">{below}</p>}
    </header>
  );
}
