/**
 * From the bytes of a file to a solo, with every problem met on the way. This is the front door;
 * the formats stand in the packages below.
 */
package phrasecensus.readers;
