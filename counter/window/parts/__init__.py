"""What several panes share: pen, theme, rows, labels that wrap. Knows no pane and no rule of the trade."""
