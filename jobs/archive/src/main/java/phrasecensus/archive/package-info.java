/** What the archive holds beside the program, made while it is packed. Nothing of this ships. */
package phrasecensus.archive;
