/** Rows of a study's tables as the report needs them: read once, named, sorted. */
package phrasecensus.report.rows;
