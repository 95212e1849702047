/** By this a page says who made it, so that the next run may write over it and over nothing else. */
export const GENERATOR = 'Passagework';
