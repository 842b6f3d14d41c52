/**
 * The program of the build that writes a record for every table of {@code schemas/} and an enum for
 * every vocabulary there. Nothing that runs uses it.
 */
package phrasecensus.schema;
