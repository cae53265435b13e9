/** Draws the icons of `public/` in the sizes that browsers ask for, from the one drawing `public/icon.svg`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { findChromium, sandboxFlags } from '../chromium.mjs';

const SIZES = [192, 512];

const folder = resolve(fileURLToPath(import.meta.url), '../../../../public');
const executablePath = findChromium();
if (executablePath === null) throw new Error('Chromium is needed to draw the icons.');
const browser = await chromium.launch({ executablePath, args: [...sandboxFlags()] });
try {
  for (const size of SIZES) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    const drawing = readFileSync(`${folder}/icon.svg`, 'utf8');
    await page.setContent(`<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${drawing}`);
    writeFileSync(`${folder}/icon-${size}.png`, await page.screenshot({ omitBackground: true }));
    await page.close();
  }
} finally {
  await browser.close();
}
