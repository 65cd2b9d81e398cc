// Builds the page into one file, so that it opens from a disk without a server:
//   npx vite build examples/browser
import { fileURLToPath } from 'node:url';

/** Puts the script and the style sheet into the page itself. */
const oneFile = {
  name: 'one-file',
  enforce: 'post',
  generateBundle(_, bundle) {
    const page = bundle['index.html'];
    for (const [name, part] of Object.entries(bundle)) {
      if (part === page) continue;
      const text = part.type === 'chunk' ? part.code : String(part.source);
      const tag =
        part.type === 'chunk' ? /<script[^>]*src="[^"]*"[^>]*><\/script>/ : /<link[^>]*rel="stylesheet"[^>]*>/;
      const whole =
        part.type === 'chunk'
          ? `<script type="module">${text.replaceAll('</script', '<\\/script')}</script>`
          : `<style>${text}</style>`;
      page.source = String(page.source).replace(tag, () => whole);
      delete bundle[name];
    }
  },
};

export default {
  root: fileURLToPath(new URL('.', import.meta.url)),
  base: './',
  logLevel: 'warn',
  plugins: [oneFile],
  build: {
    outDir: fileURLToPath(new URL('../../out/browser', import.meta.url)),
    emptyOutDir: true,
    modulePreload: false,
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    rolldownOptions: { output: { codeSplitting: false } },
  },
};
