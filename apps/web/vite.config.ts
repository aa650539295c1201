import { defineConfig } from 'vite';
import { compress } from './build/compress.ts';
import { drawIcons } from './build/icons.ts';
import { shell } from './build/shell.ts';

/** `vite build apps/web`: the screens to `apps/web/dist`, which the api serves. */
export default defineConfig({
  root: import.meta.dirname,
  plugins: [drawIcons(), shell(), compress()],
  build: {
    // What `Intl`, `Temporal`-free dates, dialogs and nesting need: browsers of the last two years.
    target: ['chrome115', 'firefox115', 'safari17'],
    outDir: 'dist',
    emptyOutDir: true,
    // The content policy lets nothing stand in the page itself.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { index: 'index.html', sw: 'service-worker/sw.ts' },
      output: {
        // Browsers look for a new service worker at the address of the old one.
        entryFileNames: ({ name }) => (name === 'sw' ? 'sw.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
});
