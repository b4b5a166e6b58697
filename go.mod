module pegwright

go 1.26.8
