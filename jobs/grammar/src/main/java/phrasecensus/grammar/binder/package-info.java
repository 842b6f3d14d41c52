/** Runs while building only: writes the source of a binder from annotated classes and the table. */
package phrasecensus.grammar.binder;
