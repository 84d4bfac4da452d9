import type { ButtonHTMLAttributes, ReactNode } from 'react';

interface Wish extends ButtonHTMLAttributes<HTMLButtonElement> {
  /** The one thing to do here, a plain key, or a quiet one. */
  readonly weight?: 'do' | 'plain' | 'bare';
  readonly children: ReactNode;
}

/** Something to press: 46 px high, in words. */
export function Key({ weight = 'plain', className = '', children, ...rest }: Wish): ReactNode {
  const weightClass = weight === 'plain' ? '' : ` key-${weight}`;
  return (
    <button type="button" className={`key${weightClass} ${className}`} {...rest}>
      {children}
    </button>
  );
}
