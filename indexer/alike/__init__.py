"""What makes photos alike, and which of them stands for the others: values in, values out. Pure."""
