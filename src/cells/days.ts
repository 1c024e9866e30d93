/** 1 January 1970 in days as a sheet counts them, from 30 December 1899. */
export const serialOf1970 = 25_569;
export const dayInMilliseconds = 86_400_000;
