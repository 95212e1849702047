import type { Hash } from 'node:crypto';

/** SHA-256, to be fed. Node's cryptography takes long to load for a command that starts, so it is loaded by whoever wants it. */
export function sha256(): Hash {
  return process.getBuiltinModule('node:crypto').createHash('sha256');
}
