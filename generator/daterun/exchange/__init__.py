"""What goes in and out of a catalogue folder: start, add, intake and export."""
