"""What the trade knows: money, metals, measures, grades, dates and mint marks, each as a value."""
