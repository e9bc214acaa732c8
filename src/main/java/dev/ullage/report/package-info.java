/**
 * What the commands print: figures of the other packages as text, JSON, CSV or Markdown. Whatever
 * came out of a user's file is made safe for the place that it is printed in.
 */
@NullMarked
package dev.ullage.report;

import org.jspecify.annotations.NullMarked;
