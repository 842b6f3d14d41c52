/**
 * The contracts of a study: table schemas and the statistics catalogue as the files in {@code
 * schemas/} define them, the study definition, metadata and the manifest. Knows no engine.
 */
package phrasecensus.tables;
