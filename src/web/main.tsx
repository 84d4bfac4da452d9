// What does the builder see? One page: the car in the middle, the question at hand beside it, the snags in reach.
import { MantineProvider } from '@mantine/core';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import '@fontsource-variable/source-sans-3/wght.css';
import './theme/mantine.css';
import './theme/colours.css';
import './theme/plain.css';
import './frame/frame.css';
import { followAddress } from './bench/place.ts';
import { Page } from './frame/page.tsx';
import { theme } from './theme/theme.ts';

followAddress();
createRoot(document.getElementById('page')!).render(
  <StrictMode>
    <MantineProvider theme={theme} defaultColorScheme="auto">
      <Page />
    </MantineProvider>
  </StrictMode>,
);
