import type { Comment, Word } from './tree';
import { readValue } from './values/read-value';

const HEAD = /^\/\/\s*check(\s+file)?\s*:/;

/** Reads a comment: one that begins `// check:` or `// check file:` sets levels. */
export function readComment(comment: Word): Comment {
  const head = comment.text.includes('check') && HEAD.exec(comment.text);
  if (!head) return comment;
  const start = comment.start + head[0].length;
  const read = readValue('levels', { start, end: comment.end, text: comment.text.slice(head[0].length) });
  return {
    ...comment,
    check: { start, end: comment.end, file: head[1] !== undefined, levels: 'value' in read ? read.value : [] },
  };
}
