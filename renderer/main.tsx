import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { z } from 'zod';
import { createWindowRoot } from './root.tsx';
import { openTransports } from './transport/open-transports.ts';
import './styles/fonts.css';
import './styles/tokens.css';
import './styles/base.css';

// The page's policy forbids code made from text, which the checker would otherwise try for speed.
z.config({ jitless: true });

const place = document.getElementById('root');
if (place) {
  const { element } = createWindowRoot(openTransports(), window, import.meta.env.DEV);
  createRoot(place).render(<StrictMode>{element}</StrictMode>);
}
