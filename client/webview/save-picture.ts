import type { ExportFormat, PanelMessage, ViewName } from './messages';

interface Drawing {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/** Pixels of a PNG for each of the drawing. */
const SHARPNESS = 2;

/** A view as a file for the host to save: SVG text, or PNG in base64 on white paper. */
export async function saved(view: ViewName, format: ExportFormat, title: string, drawing: Drawing): Promise<PanelMessage> {
  const svg = `<?xml version="1.0" encoding="UTF-8"?>\n${drawing.svg}\n`;
  const data = format === 'svg' ? svg : await rasterised(drawing);
  return {
    type: 'export',
    view,
    format,
    name: `${pictureName(title)}-${view === 'board' ? 'fingerboard' : 'staff'}.${format}`,
    data,
  };
}

/** `Lighthouse study, bars 1-4` becomes `lighthouse-study-bars-1-4`. */
export function pictureName(title: string): string {
  const plain = title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  return plain.slice(0, 60) || 'passage';
}

async function rasterised({ svg, width, height }: Drawing): Promise<string> {
  const picture = new Image();
  picture.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await picture.decode();
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width * SHARPNESS);
  canvas.height = Math.round(height * SHARPNESS);
  const context = canvas.getContext('2d');
  if (!context) throw new Error('this window has no canvas to draw the PNG on; save the view as SVG instead');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL('image/png').replace(/^data:image\/png;base64,/, '');
}
