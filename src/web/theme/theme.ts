import { createTheme } from '@mantine/core';

/** Square corners, no shadows, 17 px, everything to press at least 44 px high: see the style sheet beside this for colours. */
export const theme = createTheme({
  fontFamily: "'Source Sans 3 Variable', 'Source Sans 3', system-ui, sans-serif",
  fontFamilyMonospace: 'ui-monospace, monospace',
  fontSizes: { xs: '0.82rem', sm: '0.9rem', md: '1rem', lg: '1.15rem', xl: '1.4rem' },
  defaultRadius: 0,
  respectReducedMotion: true,
  components: {
    TextInput: { defaultProps: { size: 'lg' } },
    Textarea: { defaultProps: { size: 'lg' } },
    NumberInput: { defaultProps: { size: 'lg' } },
    NativeSelect: { defaultProps: { size: 'lg' } },
    Modal: {
      defaultProps: { transitionProps: { duration: 0 }, closeButtonProps: { size: 44, 'aria-label': 'Close' } },
    },
    Drawer: {
      defaultProps: { transitionProps: { duration: 0 }, closeButtonProps: { size: 44, 'aria-label': 'Close' } },
    },
  },
});
