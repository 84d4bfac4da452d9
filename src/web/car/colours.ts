import { useComputedColorScheme } from '@mantine/core';
import { useMemo } from 'react';
import { Color } from 'three';

const names = ['paper', 'card', 'ink', 'soft', 'rule', 'blue', 'red', 'brass', 'tape', 'steel'] as const;
export type Colours = Readonly<Record<(typeof names)[number], Color>> & { readonly isDark: boolean };

/** The style sheet's colours for the picture, read anew when the screen goes dark or light. */
export function useColours(): Colours {
  const scheme = useComputedColorScheme('light', { getInitialValueInEffect: false });
  return useMemo(() => {
    // The sheet's dark half hangs on this attribute, which may be set a moment later than this is read.
    const root = document.documentElement;
    const was = root.getAttribute('data-mantine-color-scheme');
    root.setAttribute('data-mantine-color-scheme', scheme);
    const style = getComputedStyle(root);
    const read = names.map((name) => [name, new Color(style.getPropertyValue(`--${name}`).trim())] as const);
    if (was !== null && was !== scheme) root.setAttribute('data-mantine-color-scheme', was);
    return { ...(Object.fromEntries(read) as Record<(typeof names)[number], Color>), isDark: scheme === 'dark' };
  }, [scheme]);
}
