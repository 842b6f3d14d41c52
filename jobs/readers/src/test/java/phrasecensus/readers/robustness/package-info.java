/** Seeded damage to sound files: whatever is done to a file, it is read or refused. */
package phrasecensus.readers.robustness;
